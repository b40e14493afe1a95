"""How much is quilted is estimated well enough to be refused before it is begun."""

from dataclasses import replace
from typing import Any, Final

import numpy as np
import pytest

from stitchpath.geometry.nodes import find_nodes
from stitchpath.geometry.paths import Paths
from stitchpath.geometry.points import path_length
from stitchpath.layouts import find_layout, lay_lines, layout_names
from stitchpath.model.drawing import Drawing
from stitchpath.model.line import Line
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pieces import make_tasks
from stitchpath.project.amount_rules import amount_of

WIDTH, LENGTH = 300.0, 240.0
PLACES: Final = 15_000
"""A limit that a small piece comes to; that of projects is larger, the rule is the same."""

_KEYS: Final[dict[str, tuple[dict[str, Any], ...]]] = {
    "baptist-fan": ({"count": 3}, {"count": 8}),
    "broken-plaid": ({"count": 3, "gap": 1.0},),
    "cable": ({"count": 3}, {"period": 16.0, "amplitude": 6.0}),
    "chevron": ({"period": 10.0, "amplitude": 20.0}, {"period": 300.0}),
    "hanging-diamonds": ({"angle": 60.0}, {"angle": 30.0, "count": 2}),
    "loops": ({"amplitude": 30.0}, {"period": 6.0, "amplitude": 1.0}),
    "radial": ({"count": 16},),
    "serpentine": ({"period": 10.0, "amplitude": 20.0}, {"period": 200.0, "amplitude": 1.0}),
}
"""Other keys that a layout is tried with."""

_SPACED: Final = [name for name in layout_names() if "spacing" in find_layout(name).keys]
_CASES: Final = [(name, keys) for name in _SPACED for keys in ({}, *_KEYS.get(name, ()))]


def _at_the_limit(name: str, keys: dict[str, Any]) -> Quilting:
    """Return a layout at the closest spacing that the limit allows, to a twentieth."""
    spacing = 1.0
    while (
        amount_of(Quilting(layout=name, spacing=spacing, **keys), WIDTH, LENGTH).places > PLACES
    ):
        spacing *= 1.05
    return Quilting(layout=name, spacing=spacing, **keys)


def _laid(spec: Quilting) -> list[Line]:
    quilt = Quilt(width=WIDTH, length=LENGTH, edge_stitch=0, quilting=(spec,))
    (task,) = make_tasks(Project(quilt=quilt))
    return list(lay_lines(task).lines)


@pytest.mark.parametrize(("name", "keys"), _CASES)
def test_at_the_limit_a_layout_is_laid_and_comes_to_no_more(
    name: str, keys: dict[str, Any]
) -> None:
    spec = _at_the_limit(name, keys)
    lines = [line.points for line in _laid(spec)]
    places = sum(len(line) - 2 for line in lines) + len(find_nodes(Paths.of(lines)).places)
    assert places <= PLACES


@pytest.mark.parametrize("name", _SPACED)
def test_the_length_of_lines_is_told_before_they_are_laid(name: str) -> None:
    """Twice the length is the box round a wave: its way along, and four times up or down."""
    spec = _at_the_limit(name, {})
    told = amount_of(spec, WIDTH, LENGTH).stitches * spec.stitch_length
    length = sum(path_length(line.points) for line in _laid(spec))
    assert 0.95 * length <= told <= 1.8 * length


def test_a_strip_narrower_than_its_spacing_is_one_row() -> None:
    spec = Quilting(layout="parallel", spacing=50.0)
    assert amount_of(spec, WIDTH, 10.0) == amount_of(spec, WIDTH, 50.0)
    assert amount_of(spec, WIDTH, 10.0).stitches == pytest.approx(WIDTH / spec.stitch_length)


def test_strokes_that_go_on_from_one_another_do_not_cross() -> None:
    """A zigzag of 3,000 points: each segment's box meets its own and those on both sides."""
    x = np.arange(3_000.0)
    zigzag = Drawing(source="saw.svg", strokes=(np.column_stack([x, x % 2]),))
    spec = Quilting(layout="motif", svg=zigzag)
    assert amount_of(spec, 4_000.0, 100.0).places == 0
    to_and_fro = Drawing(source="saw.svg", strokes=(np.column_stack([x % 2, x % 3]),))
    assert amount_of(replace(spec, svg=to_and_fro), 4_000.0, 100.0).places > 1_000_000
