"""Plan to pictures and data; the only importer of svgwrite, reportlab and resvg.

The templates are imported by their own name: reportlab is slow to import, and few want it.
"""

from stitchpath.preview.booklet import draw_booklet
from stitchpath.preview.cloth_picture import draw_batting, draw_cloth
from stitchpath.preview.data import plan_data, plan_json
from stitchpath.preview.design_picture import draw_design
from stitchpath.preview.estimate_data import estimate_data
from stitchpath.preview.file_picture import draw_stitch_file
from stitchpath.preview.hooping_picture import draw_hooping
from stitchpath.preview.show import show
from stitchpath.preview.stage_picture import draw_stage

__all__ = [
    "draw_batting",
    "draw_booklet",
    "draw_cloth",
    "draw_design",
    "draw_hooping",
    "draw_stage",
    "draw_stitch_file",
    "estimate_data",
    "plan_data",
    "plan_json",
    "show",
]
