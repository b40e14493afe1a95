"""A project that places a stranger's stitch file, or draws a stranger's drawing as a motif."""

from collections.abc import Callable
from contextlib import suppress
from math import isfinite
from typing import Final

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.designs import read_design
from stitchpath.errors import FormatError, ProjectError
from stitchpath.machine import StitchFile, stitch_file
from stitchpath.model.design import DesignFile
from stitchpath.model.drawing import Drawing
from stitchpath.model.plan import Plan
from stitchpath.model.thread import ThreadPair
from stitchpath.pipeline import plan
from stitchpath.project import read_drawing, read_project, render_problems

WAYS: Final = (
    "mirror = false",
    "at = [10, 70]",
    "angle = 33",
    "width = 45",
    "width = 1, mirror = true",
    "angle = 90, keep_clear = 4, colours = 'one'",
    "repeat = 'brick', columns = 2, rows = 2, pitch = [40, 30], width = 20",
    "repeat = 'half-drop', pitch = [60, 60]",
)
"""Keys of a design beside its file."""
_MOST_POINTS: Final = 3000
"""Needle points of a file that is planned: more take long, and no other way."""
_DESIGN: Final = """quilt = {{ width = 110, length = 90, quilting = [
  {{ spacing = 40 }} ], design = [{{ file = "a.dst", {way} }}] }}
machine = {{ field = [70, 60], formats = ["dst"] }}
"""
_MOTIF: Final = """quilt = { width = 110, length = 90, quilting = [
  { layout = "motif", svg = "a.svg", width = 30 } ] }
machine = { field = [70, 60], formats = ["dst"] }
"""


def plan_hostile_design(
    data: bytes, suffix: str, way: str, read: Callable[[bytes, str], StitchFile]
) -> Plan | None:
    """Return a plan that can be sewn, or None where problems say why not; fail on all else."""

    def load(_: str) -> DesignFile:
        return read_design(data, f"a{suffix}", read)

    text = _DESIGN.format(way=way)
    try:
        project = read_project(text, load_design=load)
    except ProjectError as error:
        _assert_told(error, text)
        return None
    points = sum(len(each.file.stitches.op) for each in project.quilt.design)
    return _sewn(plan(project)) if points <= _MOST_POINTS else None


def plan_hostile_drawing(data: bytes) -> Plan | None:
    """Return a plan of a motif that can be sewn, or None, as for a design."""

    def load(name: str) -> Drawing:
        return read_drawing(data, name)

    try:
        project = read_project(_MOTIF, load=load)
    except ProjectError as error:
        _assert_told(error, _MOTIF)
        return None
    (motif,) = project.quilt.quilting
    assert motif.svg is not None
    points = sum(map(len, motif.svg.strokes))
    return _sewn(plan(project)) if points <= _MOST_POINTS else None


def _assert_told(error: ProjectError, text: str) -> None:
    shown = render_problems(error.problems, text=text, name="throw.toml")
    assert shown.count("error[") == len(error.problems)
    assert all(line.isprintable() for line in shown.splitlines())


def _sewn(planned: Plan) -> Plan:
    """Return a plan whose figures and files are sound; fail where they are not."""
    assert isfinite(planned.figures.seconds + planned.figures.top_thread_mm)
    if planned.has_errors:
        return planned
    for stage in planned.stages:
        for sewn in stage.hoopings:
            with suppress(FormatError):  # one line, as elsewhere
                stitch_file(
                    sewn.stitches,
                    sewn.hooping,
                    format=FORMATS["dst"],
                    name="a",
                    thread=ThreadPair(),
                )
    return planned
