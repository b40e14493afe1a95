"""Designs of a plan as data: `stages[].designs` in plan.json."""

from typing import Any

from stitchpath.model.design import SewnDesign


def design_data(design: SewnDesign) -> dict[str, Any]:
    """Return what a design came to, as plain values that JSON can hold; its size in mm."""
    return {
        "file": design.source,
        "copies": design.copies,
        "stitches": design.stitches,
        "runs": design.runs,
        "left_out": design.left_out,
        "needle_points": design.way,
        "size": list(design.size),
        "colours": [colour or None for colour in design.colours],
        "sewn": design.sewn,
        "ties": design.ties,
        "divided": design.divided,
        "divided_runs": design.divided_runs,
    }
