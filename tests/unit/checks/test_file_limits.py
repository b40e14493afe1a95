"""What the files of each format can count."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.catalog.formats import FORMATS
from stitchpath.checks import file_limits
from stitchpath.checks.file_limits import check, count_records
from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.model.stitches import Op, Stitches
from tests.support.checked import plan_of, rows_of, stage_of


def _found(stitches: Stitches, *formats: str, far: float = 0.0) -> list[Finding]:
    project = Project(quilt=Quilt(width=200, length=200), machine=Machine(formats=formats))
    stage = stage_of(stitches)
    (sewn,) = stage.hoopings
    moved = Hooping(number=1, field=sewn.hooping.field, centre=(100 - far, 100))
    return list(
        check(
            plan_of(replace(stage, hoopings=(replace(sewn, hooping=moved),)), project=project)
        )
    )


def _zigzag(count: int) -> Stitches:
    at = np.arange(count)
    return rows_of([np.column_stack([50 + at % 2, np.full(count, 50)])])


def test_a_run_longer_than_a_pes_file_counts_is_an_error() -> None:
    """A 16-bit count holds 65,535 (docs/formats.md)."""
    assert _found(_zigzag(65_535), "pes", "dst") == []
    (error,) = _found(_zigzag(65_536), "pes", "dst")
    assert error.level is Level.ERROR
    assert error.text == (
        "hooping 1 comes to 65,536 stitches without a break; a pes file holds 65,535"
    )
    assert (error.value, error.limit) == (65_536, 65_535)
    assert error.help


def test_pauses_are_counted() -> None:
    """A dst file counts 998 (docs/formats.md)."""
    for pauses, count in ((998, 0), (999, 1)):
        op = np.tile([Op.STITCH, Op.PAUSE], pauses)
        xy = np.column_stack([50 + np.arange(len(op)) // 2 % 2, np.full(len(op), 50)])
        stitches = Stitches(xy=xy, op=op, tie=np.zeros(len(op), dtype=np.bool_))
        assert len(_found(stitches, "dst")) == count


def test_how_far_a_file_reaches_is_counted() -> None:
    """A pes file says 16,383 tenths of a mm (docs/formats.md)."""
    near, far = (_found(_zigzag(3), "pes", far=1638.2 + 50 - 1 + off) for off in (0.0, 0.2))
    assert near == []
    assert len(far) == 1


def test_the_header_of_a_dst_file_counts_seven_digits(monkeypatch: pytest.MonkeyPatch) -> None:
    """Ten million stitches take long to make, so the limit is lowered to what is there."""
    assert FORMATS["dst"].most_records == 9_999_999
    stitches = _zigzag(50)
    records = count_records(stage_of(stitches).hoopings[0], FORMATS["dst"])
    for most, count in ((records, 0), (records - 1, 1)):
        lowered = [replace(FORMATS["dst"], most_records=most)]
        monkeypatch.setattr(file_limits, "stitch_formats", lambda _, same=lowered: same)
        assert len(_found(stitches, "dst")) == count


def test_long_moves_and_cuts_take_several_records() -> None:
    """50 mm are five records of 12.1 mm at most; a cut is three (docs/formats.md)."""
    stitches = rows_of([[(50, 50), (51, 50)], [(101, 50), (102, 50)]])
    # jump, two stitches, three for the cut; five for the move, two stitches, three for the cut
    assert count_records(stage_of(stitches).hoopings[0], FORMATS["dst"]) == 6 + 10
