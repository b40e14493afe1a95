"""TOML text to a `Project`, or every problem in it at once."""

from stitchpath.project.read import Load, decode_project, read_project
from stitchpath.project.render import render_problems
from stitchpath.project.schema import project_schema
from stitchpath.project.starter import starter_project
from stitchpath.project.svg_drawing import read_drawing
from stitchpath.project.svg_gate import MOST_BYTES as MOST_DRAWING_BYTES

__all__ = [
    "MOST_DRAWING_BYTES",
    "Load",
    "decode_project",
    "project_schema",
    "read_drawing",
    "read_project",
    "render_problems",
    "starter_project",
]
