"""Bobbins, evenings and folds as a maker reads them."""

from dataclasses import replace

import pytest

from stitchpath.cli.hours import (
    find_evening,
    show_bobbins,
    show_bobbins_briefly,
    show_folding,
    show_sessions,
)
from stitchpath.cli.usage import UsageError
from stitchpath.model.estimate import BobbinChange, Bobbins, Estimate, Folding, Session
from stitchpath.model.plan import Plan
from tests.support.plans import small_plan


def _plan(**estimate: object) -> Plan:
    return replace(small_plan(), estimate=Estimate(**estimate))  # type: ignore[arg-type]


def _change(hooping: int, stitch: int, *, within: bool = False) -> BobbinChange:
    return BobbinChange(stage="quilt", hooping=hooping, stitch=stitch, within=within)


def _bobbins(*changes: BobbinChange) -> Bobbins:
    return Bobbins(
        colour="#faf0e6",
        count=1 + len(changes),
        changes=changes,
        left_mm=12_345,
        full_mm=36_000,
    )


def test_bobbins_are_told_with_where_to_change_them() -> None:
    assert show_bobbins(_plan(bobbins=(_bobbins(_change(3, 449), _change(12, 12)),))) == [
        "linen: wind 3 L bobbins; about 12.3 m will be left",
        "  change before quilt 03: it would run out there after about 400 stitches",
        "  change before quilt 12: it would run out there after about 100 stitches",
    ]


def test_a_hooping_that_takes_several_is_told_once() -> None:
    changes = (_change(2, 300), _change(2, 6100, within=True), _change(2, 12_150, within=True))
    assert show_bobbins(_plan(bobbins=(_bobbins(*changes),)))[1:] == [
        "  change before quilt 02: it would run out there after about 300 stitches",
        "  no bobbin lasts for quilt 02: begin it full, change every 6,100 stitches or so",
    ]


def test_a_summary_names_a_few_changes() -> None:
    few = _plan(bobbins=(_bobbins(_change(3, 449)),))
    assert show_bobbins_briefly(few) == ["linen: wind 2 L bobbins; change before quilt 03"]
    many = _plan(bobbins=(_bobbins(*(_change(n, 100) for n in range(2, 12))),))
    (line,) = show_bobbins_briefly(many)
    assert line.endswith("quilt 05, quilt 06, quilt 07, and 4 more")
    none = _plan(bobbins=(_bobbins(),))
    assert show_bobbins_briefly(none) == ["linen: wind 1 L bobbin"]


def test_evenings_are_told_by_their_first_and_last_hooping() -> None:
    sessions = (
        Session(first=("quilt", 1), last=("quilt", 4), hoopings=4, seconds=6000.0, over=False),
        Session(first=("seam", 1), last=("seam", 1), hoopings=1, seconds=9000.0, over=True),
    )
    assert show_sessions(_plan(sessions=sessions)) == [
        "evening 1: quilt 01 to quilt 04: 4 hoopings, 1 h 40 min",
        "evening 2: seam 01: 1 hooping, 2 h 30 min, longer than the evening",
    ]


def test_folds_are_numbered_and_left_out_without_a_pocket() -> None:
    folding = Folding(
        across=3, along=4, width=1, length=1, height=1, ease=0, steps=("fold", "push")
    )
    assert show_folding(_plan(folding=folding)) == ["1. fold", "2. push"]
    assert show_folding(_plan()) == []


@pytest.mark.parametrize(
    ("text", "hours"),
    [(None, None), ("2 h", 2), ("1.5 h", 1.5), ("90 min", 1.5), ("2 h 30 min", 2.5), ("2h", 2)],
)
def test_an_evening_is_read_as_it_is_said(text: str | None, hours: float | None) -> None:
    assert find_evening(text) == hours


@pytest.mark.parametrize("text", ["", "0 h", "2", "5 min", "25 h", "2:30", "soon", "9" * 9])
def test_an_evening_that_is_none_is_refused(text: str) -> None:
    with pytest.raises(UsageError, match="--evening cannot be"):
        find_evening(text)
