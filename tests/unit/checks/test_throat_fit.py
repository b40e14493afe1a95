"""Rolls and the throat. The formula and worked examples stand with the order of hoopings."""

import pytest

from stitchpath.checks.throat_fit import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Batting, HoopingRules, Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan


def _said(throat: tuple[float, float], *, width: float = 1000) -> list[Finding]:
    quilting = Quilting(layout="parallel", spacing=150)
    project = Project(
        quilt=Quilt(width=width, length=600, edge_stitch=0, quilting=(quilting,)),
        batting=Batting(thickness=3, quilting_distance=200),
        machine=Machine(field=(200, 300), throat=throat),
        hoopings=HoopingRules(turn=False),
    )
    return list(check(plan(project)))


def test_what_lies_flat_is_not_spoken_of() -> None:
    assert _said((230, 130), width=300) == []


def test_the_thickest_roll_is_a_note() -> None:
    (note,) = _said((230, 130))
    assert (note.level, note.code, note.stage) == (Level.NOTE, "throat-fit", "quilt")
    assert note.text.startswith("the roll of the quilt in the throat is ")
    assert note.value is not None
    assert 40 < note.value <= 130
    assert note.help == ""


def test_a_hoop_wider_than_the_throat_is_warned_of_where_the_piece_lies_flat() -> None:
    """Half of a ring of 240 mm is 120 mm (geometry)."""
    (warning,) = _said((110, 130), width=190)
    assert warning.level is Level.WARNING
    assert warning.text.startswith("half the ring takes 120 mm in hooping 1, and the throat is")
    assert warning.text.endswith("110 mm wide; so it is in 2 of 2 hoopings")
    assert "machine.throat" in warning.help


@pytest.mark.parametrize(
    ("throat", "says"),
    [
        ((230, 30), "and the throat is 30 mm high; so it is in "),
        ((140, 130), "and the throat is 140 mm wide; so it is in "),
    ],
)
def test_a_roll_that_does_not_fit_is_a_warning_with_advice(
    throat: tuple[float, float], says: str
) -> None:
    (warning,) = _said(throat)
    assert warning.level is Level.WARNING
    assert says in warning.text
    assert warning.value is not None
    assert warning.limit is not None
    assert warning.value > warning.limit
    assert warning.help.startswith("roll it tighter")
