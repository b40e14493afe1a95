"""Plan to pictures and data; the only importer of svgwrite and reportlab.

The templates are imported by their own name: reportlab is slow to import, and few want it.
"""

from stitchpath.preview.data import plan_data, plan_json
from stitchpath.preview.design_picture import draw_design
from stitchpath.preview.hooping_picture import draw_hooping
from stitchpath.preview.stage_picture import draw_stage

__all__ = [
    "draw_design",
    "draw_hooping",
    "draw_stage",
    "plan_data",
    "plan_json",
]
