"""TOML text to a `Project`, or every problem in it at once."""

from stitchpath.project.read import decode_project, read_project
from stitchpath.project.render import render_problems
from stitchpath.project.schema import project_schema
from stitchpath.project.starter import starter_project

__all__ = [
    "decode_project",
    "project_schema",
    "read_project",
    "render_problems",
    "starter_project",
]
