"""Pauses, and what formats make of them."""

import pytest

from stitchpath.checks.pause import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan


def _findings(*formats: str, pull_up: bool) -> list[Finding]:
    machine = Machine(formats=formats, bobbin_pull_up="always" if pull_up else "never")
    quilt = Quilt(width=150, length=150, quilting=(Quilting(spacing=50),))
    return list(check(plan(Project(quilt=quilt, machine=machine))))


def test_without_pauses_nothing_is_said() -> None:
    assert _findings("dst", "pes", pull_up=False) == []


def test_formats_with_a_stop_of_their_own_need_no_word() -> None:
    assert _findings("pes", "u01", pull_up=True) == []


def test_formats_that_turn_a_pause_into_a_change_of_colour_are_named() -> None:
    (note,) = _findings("dst", "pes", "exp", pull_up=True)
    assert note.level is Level.NOTE
    assert note.text.startswith("dst, exp cannot hold a pause")
    assert note.value == pytest.approx(6)  # 3 + 3 lines; the edge line goes with one of them
