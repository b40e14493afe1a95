"""Checks: what can be said of a plan before anything is sewn. One file each."""

from stitchpath.checks._check import check_names, check_plan

__all__ = ["check_names", "check_plan"]
