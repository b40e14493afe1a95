"""TOML text to a `Project`, or every problem in it at once."""

from typing import TYPE_CHECKING

from stitchpath.listing import offers

if TYPE_CHECKING:
    from stitchpath.project.read import Load, decode_project, read_project
    from stitchpath.project.render import render_problems
    from stitchpath.project.schema import project_schema
    from stitchpath.project.starter import starter_project
    from stitchpath.project.svg_drawing import read_drawing

__all__ = [
    "Load",
    "decode_project",
    "project_schema",
    "read_drawing",
    "read_project",
    "render_problems",
    "starter_project",
]

__getattr__ = offers(
    __name__,
    {
        "Load": "read",
        "decode_project": "read",
        "project_schema": "schema",
        "read_drawing": "svg_drawing",
        "read_project": "read",
        "render_problems": "render",
        "starter_project": "starter",
    },
)
