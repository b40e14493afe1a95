"""Plan to pictures and data; the only importer of svgwrite, reportlab and resvg."""

from typing import TYPE_CHECKING

from stitchpath.listing import offers

if TYPE_CHECKING:
    from stitchpath.preview.booklet import draw_booklet
    from stitchpath.preview.cloth_picture import draw_batting, draw_cloth
    from stitchpath.preview.data import joined_json, plan_data, plan_json
    from stitchpath.preview.design_picture import draw_design
    from stitchpath.preview.file_picture import draw_stitch_file
    from stitchpath.preview.hooping_picture import draw_hooping
    from stitchpath.preview.notebook import show
    from stitchpath.preview.stage_picture import draw_stage

__all__ = [
    "draw_batting",
    "draw_booklet",
    "draw_cloth",
    "draw_design",
    "draw_hooping",
    "draw_stage",
    "draw_stitch_file",
    "joined_json",
    "plan_data",
    "plan_json",
    "show",
]

__getattr__ = offers(
    __name__,
    {
        "draw_batting": "cloth_picture",
        "draw_booklet": "booklet",
        "draw_cloth": "cloth_picture",
        "draw_design": "design_picture",
        "draw_hooping": "hooping_picture",
        "draw_stage": "stage_picture",
        "draw_stitch_file": "file_picture",
        "joined_json": "data",
        "plan_data": "data",
        "plan_json": "data",
        "show": "notebook",
    },
)
