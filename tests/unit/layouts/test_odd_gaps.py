"""Odd gaps: what is left beside whole repeats is told, and how to have none."""

from typing import Any

import numpy as np
import pytest

from stitchpath.layouts import lay_lines
from stitchpath.model.drawing import Drawing
from stitchpath.model.finding import Finding, Level
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pieces import make_tasks
from stitchpath.units import Unit

TRIANGLE = ((0.0, 0.0), (300.0, 0.0), (0.0, 240.0))
BAR = Drawing(source="bar.svg", strokes=(np.array([[0.0, 0], [40, 0], [40, 20]]),))


def said(
    *,
    unit: Unit = "mm",
    size: tuple[float, float] = (300, 240),
    **keys: Any,  # noqa: ANN401 - as the layouts' keys are
) -> list[Finding]:
    """Return what is told of odd gaps on a piece; every key is a layout's."""
    quilt = Quilt(width=size[0], length=size[1], edge_stitch=0, quilting=(Quilting(**keys),))
    (task,) = make_tasks(Project(quilt=quilt))
    found = lay_lines(task, unit=unit).findings
    return [finding for finding in found if finding.code == "odd-gap"]


def test_both_gaps_from_the_centre_and_what_would_come_out_even() -> None:
    """150 is three times 40 and 30; eight squares of 37.5 fill 300. 240 is six times 40."""
    (note,) = said(layout="crosshatch", spacing=40)
    assert note.level is Level.NOTE
    assert note.stage == "quilt"
    assert note.text == (
        "the layout crosshatch does not come out even across: beside whole repeats of 40 mm, "
        "30 mm is left at both sides"
    )
    assert note.help == "write `fit = true`, or make the spacing 37.5 mm"
    assert (note.value, note.limit) == (30, 40)


def test_the_far_gap_from_the_edge() -> None:
    """300 is seven times 40 and 20, which is told; 240 is six times 40."""
    (note,) = said(layout="crosshatch", spacing=40, start="edge")
    assert note.text.endswith("repeats of 40 mm, 20 mm is left at the far side")


@pytest.mark.parametrize("name", ["crosshatch", "clamshell", "orange-peel", "motif"])
@pytest.mark.parametrize("start", ["centre", "edge"])
def test_what_is_advised_comes_out_even(name: str, start: str) -> None:
    keys: dict[str, Any] = {"layout": name, "start": start, "spacing": 41.0}
    if name == "motif":
        keys |= {"svg": BAR, "repeat": "straight", "width": 41.0}
    assert said(**keys)
    assert said(**keys, fit=True) == []


def test_a_spacing_that_is_advised_comes_out_even_that_way() -> None:
    """Eight squares of 37.5 fill 300; 240 is 6.4 times that."""
    notes = said(layout="crosshatch", spacing=37.5)
    assert [note.help for note in notes] == ["write `fit = true`, or make the spacing 40 mm"]
    assert "even down" in notes[0].text


def test_half_a_repeat_at_both_sides_looks_meant() -> None:
    """300 is five times 60: two squares either side of the middle line, and half ones."""
    assert said(layout="crosshatch", spacing=60, size=(300, 300)) == []


def test_a_gap_that_is_even_up_to_the_finished_edge_is_not_odd() -> None:
    """300 by 60: even to the piece's edge, though the margin takes a strip of the last gap."""
    assert said(layout="crosshatch", spacing=60, size=(300, 300), margin=16) == []


def test_unequal_gaps_are_told_by_their_sides() -> None:
    block = Quilting(layout="outline", area=Shape(rectangle=(0, 0, 33, 240)))
    quilt = Quilt(
        width=300,
        length=240,
        edge_stitch=0,
        quilting=(Quilting(layout="parallel", angle=90, spacing=40), block),
    )
    (task,) = make_tasks(Project(quilt=quilt))
    (note,) = (f for f in lay_lines(task).findings if f.code == "odd-gap")
    assert note.text.endswith("37 mm is left at the left and 30 mm at the right")


def test_a_turned_layout_is_told_the_way_it_lies_on_the_piece() -> None:
    """Level lines turned by 90 degrees are 40 apart across the piece."""
    flat, upright = (said(layout="parallel", spacing=40, angle=angle) for angle in (0, 90))
    assert flat == []
    assert "across" in upright[0].text
    turned = said(layout="serpentine", spacing=40, angle=90)
    assert [("across" in note.text) for note in turned] == [True]


def test_lengths_are_told_in_the_projects_unit() -> None:
    (note,) = said(
        unit="in", layout="crosshatch", spacing=2 * 25.4, size=(15 * 25.4, 12 * 25.4)
    )
    assert "whole repeats of 2 in, 1 1/2 in is left" in note.text


@pytest.mark.parametrize(
    "keys",
    [
        {"layout": "double-diagonal", "spacing": 41},
        {"layout": "diagonal", "spacing": 41},
        {"layout": "crosshatch", "spacing": 41, "angle": 45},
        {"layout": "meander", "spacing": 41},
        {"layout": "round-spiral", "spacing": 41},
        {"layout": "piano-keys", "spacing": 41, "area": Shape(border=60)},
        {"layout": "cable", "spacing": 41, "area": Shape(border=60)},
        {"layout": "motif", "svg": BAR},
        {"layout": "crosshatch", "spacing": 41, "area": Shape(polygon=TRIANGLE)},
    ],
)
def test_where_no_gap_is_seen_nothing_is_told(keys: dict[str, Any]) -> None:
    assert said(**keys) == []


def test_what_cannot_be_stretched_far_enough_is_a_warning() -> None:
    """240 by 100 is 2.4: two of 120 are a fifth more; 290 is three of 96.7."""
    (down,) = said(layout="crosshatch", spacing=100, fit=True, size=(290, 240))
    assert down.level is Level.WARNING
    assert down.text == (
        "whole repeats of 100 mm would have to be stretched by more than 10% to fill the area "
        "down; 20 mm is left at both sides"
    )
    assert down.help == "choose another spacing, or a larger `fit_limit`"


def test_a_motif_is_counted_from_where_it_is_placed() -> None:
    """To the left of 33 there is no room for 40; to the right, 267 is six times 40 and 27."""
    keys: dict[str, Any] = {"svg": BAR, "repeat": "straight"}
    across, *_ = said(layout="motif", at=(33, 120), **keys)
    assert across.text.endswith("33 mm is left at the left and 27 mm at the right")
    assert said(layout="motif", at=(140, 120), **keys) == []


@pytest.mark.parametrize("keys", [{"layout": "meander"}, {"layout": "crosshatch", "angle": 30}])
def test_what_does_not_repeat_cannot_be_fitted(keys: dict[str, Any]) -> None:
    (warning,) = said(**keys, fit=True)
    assert warning.level is Level.WARNING
    assert warning.text == f"the layout {keys['layout']} cannot be fitted here"
