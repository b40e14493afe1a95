"""Integer records: hops, order, limits."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.catalog.formats import FORMATS, Format
from stitchpath.errors import FormatError
from stitchpath.machine.records import make_records
from stitchpath.machine.rows import Records
from stitchpath.model.stitches import Op

all_formats = pytest.mark.parametrize("format_", FORMATS.values(), ids=FORMATS)
S, J, C, P = Op.STITCH, Op.JUMP, Op.CUT, Op.PAUSE


def _records(rows: list[tuple[Op, int, int]], name: str = "dst") -> Records:
    units = np.array([(x, y) for _, x, y in rows], dtype=np.int64)
    op = np.array([op for op, _, _ in rows], dtype=np.uint8)
    return make_records(units, op, FORMATS[name])


def _rows(records: Records) -> list[tuple[int, int, int]]:
    return [
        (int(op), int(x), int(y))
        for op, (x, y) in zip(records.op, records.xy_units, strict=True)
    ]


def test_way_to_the_first_stitch_is_hopped_in_equal_parts() -> None:
    assert _rows(_records([(S, 300, -30)])) == [
        (J, 100, -10),
        (J, 200, -20),
        (J, 300, -30),
        (S, 300, -30),
    ]


def test_jump_to_the_entry_point_is_not_hopped_twice() -> None:
    assert _rows(_records([(J, 100, 0), (S, 100, 0), (S, 130, 0)])) == [
        (J, 100, 0),
        (S, 100, 0),
        (S, 130, 0),
    ]


def test_cut_comes_before_pause_and_jump_whatever_their_order() -> None:
    rows = [(S, 0, 0), (J, 50, 0), (P, 9, 9), (C, 9, 9), (S, 50, 0)]
    assert _rows(_records(rows)) == [(S, 0, 0), (C, 0, 0), (P, 0, 0), (J, 50, 0), (S, 50, 0)]


def test_cut_that_has_nothing_to_cut_is_left_out() -> None:
    rows = [(S, 0, 0), (C, 0, 0), (J, 5, 0), (C, 5, 0), (S, 5, 0)]
    assert _rows(_records(rows)) == [(S, 0, 0), (C, 0, 0), (J, 5, 0), (S, 5, 0)]


def test_stitch_goes_on_after_a_pause() -> None:
    rows = [(S, 0, 0), (P, 0, 0), (S, 28, 0)]
    assert _rows(_records(rows)) == [(S, 0, 0), (P, 0, 0), (S, 28, 0)]


def test_stitch_goes_on_after_two_pauses() -> None:
    rows = [(S, 0, 0), (P, 0, 0), (P, 0, 0), (S, 28, 0)]
    assert _rows(_records(rows)) == [(S, 0, 0), (P, 0, 0), (P, 0, 0), (S, 28, 0)]


def test_cut_without_a_way_gets_a_hop_of_no_length_in_pes_only() -> None:
    rows = [(S, 0, 0), (C, 0, 0), (S, 0, 0)]
    assert _rows(_records(rows, "pes")) == [(S, 0, 0), (C, 0, 0), (J, 0, 0), (S, 0, 0)]
    assert _rows(_records(rows, "exp")) == [(S, 0, 0), (C, 0, 0), (S, 0, 0)]


def test_vp3_moves_without_jumps() -> None:
    rows = [(S, 0, 0), (C, 0, 0), (J, 900, 0), (S, 900, 0)]
    assert _rows(_records(rows, "vp3")) == [(S, 0, 0), (C, 0, 0), (S, 900, 0)]


@all_formats
@given(to=st.tuples(st.integers(-15_000, 15_000), st.integers(-15_000, 15_000)))
def test_hops_keep_to_the_longest_step_and_end_on_the_spot(
    format_: Format, to: tuple[int, int]
) -> None:
    records = _records([(S, 17, -5), (J, *to), (S, *to)], format_.name)
    hops = records.xy_units[np.flatnonzero(records.op == J)]
    assert records.xy_units[-1].tolist() == list(to)
    if len(hops):
        ways = np.diff(records.xy_units, axis=0)
        assert np.abs(ways).max() <= format_.longest_step_units
        assert hops[-1].tolist() == list(to)


@all_formats
def test_longest_step_is_held_and_one_tenth_more_is_refused(format_: Format) -> None:
    most = format_.longest_step_units
    assert len(_records([(S, 0, 0), (S, most, -most)], format_.name).op) == 2
    with pytest.raises(FormatError, match="a stitch is too long") as fault:
        _records([(S, 0, 0), (S, 5, 5), (S, 5, 6 + most)], format_.name)
    lines = str(fault.value).splitlines()
    assert lines[1] == (
        f"it ends at x 0.5 mm, y {(6 + most) / 10:.1f} mm of the field "
        f"and goes {(1 + most) / 10:.1f} mm along one axis"
    )
    assert lines[2] == f"the limit is {most / 10:.1f} mm, 0.1 mm less"


def test_a_long_stitch_after_a_pause_is_refused_too() -> None:
    with pytest.raises(FormatError, match="a stitch is too long"):
        _records([(S, 0, 0), (P, 0, 0), (S, 122, 0)])


@all_formats
def test_point_beyond_reach_is_refused_with_the_limit(format_: Format) -> None:
    far = format_.farthest_units + 1
    with pytest.raises(FormatError, match="how far out") as fault:
        _records([(J, 0, -far), (S, 0, -far)], format_.name)
    assert f"the limit is {(far - 1) / 10:.1f} mm" in str(fault.value)


def test_nothing_to_sew_is_refused() -> None:
    with pytest.raises(FormatError, match="there is nothing to sew"):
        _records([(J, 10, 10)])
    with pytest.raises(FormatError, match="there is nothing to sew"):
        make_records(np.zeros((0, 2), np.int64), np.zeros(0, np.uint8), FORMATS["dst"])


@pytest.mark.parametrize("op", [C, P])
def test_cut_or_pause_before_the_first_stitch_is_a_bug(op: Op) -> None:
    with pytest.raises(ValueError, match="a cut or a pause comes after a stitch"):
        _records([(J, 1, 1), (op, 1, 1), (S, 1, 1)])


def test_pause_after_the_last_stitch_is_a_bug() -> None:
    with pytest.raises(ValueError, match="a pause stands between two stitches"):
        _records([(S, 1, 1), (P, 1, 1)])


def test_pes_holds_65_535_stitches_in_a_run_and_no_more() -> None:
    op = np.zeros(65_536 + 3, dtype=np.uint8)
    units = np.zeros((len(op), 2), dtype=np.int64)
    units[::2] = 1
    op[3] = P  # three stitches, a pause, 65,535 stitches
    assert np.count_nonzero(make_records(units, op, FORMATS["pes"]).op == S) == 65_538
    op = np.append(op, np.uint8(S))
    units = np.append(units, [[0, 0]], axis=0)
    with pytest.raises(FormatError, match="at most 65535 stitches in a run, not 65536"):
        make_records(units, op, FORMATS["pes"])
    assert len(make_records(units, op, FORMATS["dst"]).op) == len(op) + 1  # and a hop to it


def test_more_records_than_the_header_counts_are_refused() -> None:
    """Two stitches, and a cut of three records: five in all, as a dst header counts them."""
    units, op = np.array([[0, 0], [1, 0], [1, 0]]), np.array([S, S, C], dtype=np.uint8)
    enough, short = (replace(FORMATS["dst"], most_records=most) for most in (6, 4))
    assert len(make_records(units, op, enough).op) >= 3
    with pytest.raises(FormatError, match="at most 4 records"):
        make_records(units, op, short)


@pytest.mark.parametrize("name", ["dst", "pes", "vp3"])
def test_more_pauses_than_the_format_counts_are_refused(name: str) -> None:
    most = FORMATS[name].most_pauses
    assert most is not None
    rows = [(S, 0, 0), *[(P, 0, 0)] * (most + 1), (S, 1, 0)]
    with pytest.raises(FormatError, match=f"at most {most} pauses, not {most + 1}"):
        _records(rows, name)
