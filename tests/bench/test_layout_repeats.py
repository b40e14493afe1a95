"""Repeats are laid in a time that grows with their number, and no faster.

What is timed is all that laying does: making lines, cutting them to the piece, and finding the
widest gap they leave. docs/performance.md tells the ratios.
"""

from math import sqrt
from pathlib import Path
from typing import Any, Final

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.layouts import lay_lines
from stitchpath.layouts._lay import Laid
from stitchpath.model.piece import StageTask
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pieces import make_tasks
from stitchpath.project import read_drawing

FEW: Final = 1_000
MANY: Final = 10_000
UNTIMED: Final = 100
"""Repeats laid where nothing is timed."""

_LEAF: Final = Path(__file__).parents[2] / "designs" / "gallery" / "leaf.svg"
_WIDE: Final = 20.0
_CASES: Final[dict[str, tuple[float, dict[str, Any]]]] = {
    "crosshatch": (400, {}),
    "broken-plaid": (400, {}),
    "double-diagonal": (400, {}),
    "hanging-diamonds": (400 / sqrt(0.75), {}),
    "chevron": (800, {}),
    "serpentine": (800, {}),
    "loops": (400, {}),
    "cable": (20 * 5.6 * 20 / 3, {}),
    "clamshell": (200, {}),
    "wineglass": (200, {}),
    "orange-peel": (400, {}),
    "terry-twist": (400, {}),
    "baptist-fan": (60 * 60, {"count": 3}),
    "motif": (14.0 * 24, {"width": 14.0, "repeat": "straight"}),
}
"""Area of a repeat at a spacing of 20 mm, square mm (a motif's, about), and other keys."""


def task_of(name: str, repeats: int) -> StageTask:
    """Return the task of laying so many repeats on a square piece."""
    area, keys = _CASES[name]
    drawing = read_drawing(_LEAF.read_bytes(), "leaf.svg") if name == "motif" else None
    spec = Quilting(layout=name, spacing=_WIDE, svg=drawing, **keys)
    side = sqrt(area * repeats)
    quilt = Quilt(width=side, length=side, edge_stitch=0, quilting=(spec,))
    (task,) = make_tasks(Project(quilt=quilt))
    return task


@pytest.mark.parametrize("repeats", [FEW, MANY])
@pytest.mark.parametrize("name", _CASES)
def test_laying(benchmark: BenchmarkFixture, name: str, repeats: int) -> None:
    if benchmark.disabled:
        if repeats == MANY:
            pytest.skip("only to be timed")
        repeats = UNTIMED
    task = task_of(name, repeats)
    laid: Laid = benchmark(lay_lines, task)
    (figures,) = laid.layouts
    # each repeat is gone round at least half, and none leaves a gap wider than itself
    area, _ = _CASES[name]
    assert figures.length_mm > repeats * sqrt(area)
    assert figures.widest_gap_mm < sqrt(2 * area)
