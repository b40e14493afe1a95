"""The whole tool in one function: a project in, a plan out. Pure: no files, clock or chance."""

from stitchpath.pipeline.each import Each
from stitchpath.pipeline.given import plan_stitches
from stitchpath.pipeline.plans import compare_fields, plan, plan_corner

__all__ = ["Each", "compare_fields", "plan", "plan_corner", "plan_stitches"]
