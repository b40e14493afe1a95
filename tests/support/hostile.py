"""What may come of hostile input: something sound, or a short word on why there is none."""

from collections.abc import Callable
from math import isfinite
from typing import Final

import numpy as np

from stitchpath.errors import FormatError, ProjectError
from stitchpath.estimate import count_stitches
from stitchpath.machine import StitchFile, measure, sewn_part
from stitchpath.model.drawing import Drawing
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.stitches import Op
from stitchpath.project import decode_project, read_drawing, read_project, render_problems
from stitchpath.project.svg_curves import FURTHEST_MM
from stitchpath.project.svg_drawing import MOST_POINTS

_LONGEST_REASON: Final = 130


def read_hostile_stitches(read: Callable[[], StitchFile]) -> StitchFile | None:
    """Return sound stitches, or None where a line says why there are none; fail on all else."""
    try:
        file = read()
    except FormatError as refused:
        _assert_one_line(str(refused))
        return None
    assert np.isin(file.read.op, list(Op)).all()
    stitches = sewn_part(file.read)
    measured = measure(file.read, stitches)
    figures = count_stitches(stitches, Machine(), runs=1, thickness_mm=3)
    assert figures.stitches == len(file.read.needle_points_units) > 0
    assert isfinite(figures.seconds + figures.top_thread_mm)
    assert all(map(isfinite, [*measured.bounds, measured.longest, *measured.crowds.at]))
    assert 0 <= measured.shortest <= measured.longest
    assert 1 <= file.read.colour_blocks <= figures.stitches
    assert all(fault.text.isprintable() for fault in file.sound.faults)
    return file


def _assert_one_line(said: str) -> None:
    assert said
    assert said.isprintable()


def read_hostile_drawing(data: bytes) -> Drawing | None:
    """Return strokes that can be sewn, or None where a line says why not; fail on all else."""
    try:
        drawing = read_drawing(data, "one.svg")
    except ValueError as why:
        said = str(why)
        assert said.startswith(("the ", "path data ", "a "))
        assert len(said) < _LONGEST_REASON
        assert said.count("\n") == 0 or "`" in said
        return None
    assert drawing.strokes
    assert sum(map(len, drawing.strokes)) <= MOST_POINTS + len(drawing.strokes)
    for stroke in drawing.strokes:
        assert len(stroke) > 1
        assert np.abs(stroke).max() <= FURTHEST_MM
        assert np.abs(np.diff(stroke, axis=0)).max(axis=1).min() > 0
    return drawing


def read_hostile_project(data: bytes) -> Project | None:
    """Return a project, or None where its problems can be shown; fail on all else."""
    text = ""
    try:
        text = decode_project(data)
        return read_project(text)
    except ProjectError as error:
        shown = render_problems(error.problems, text=text, name="throw.toml")
        count = len(error.problems)
        assert shown.count("error[") >= count
        assert shown.splitlines()[-1].startswith(f"{count} problem")
        places = [problem.span for problem in error.problems if problem.span is not None]
        assert all(1 <= span.line <= text.count("\n") + 1 or not text for span in places)
        return None
