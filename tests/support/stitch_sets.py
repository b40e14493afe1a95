"""Random stitches in random hoopings, and plain ones to build examples from."""

from collections.abc import Sequence
from typing import TypeAlias

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Op, Stitches

Row: TypeAlias = tuple[Op, float, float]
"""What is done, and how far on, mm along the field's axes."""

LONGEST_MM = 12.0
"""Fits all seven formats after rounding: the shortest limit is 12.1 mm."""


def flat_hooping(*, turn_deg: float = 0.0) -> Hooping:
    """Return a hooping whose field has the piece's own place and axes, but for its turn."""
    return Hooping(number=1, field=(400.0, 400.0), centre=(0.0, 0.0), turn_deg=turn_deg)


def make_stitches(xy: Points | Sequence[Sequence[float]], op: Sequence[int]) -> Stitches:
    """Return stitches without ties."""
    return Stitches(
        xy=np.array(xy, dtype=np.float64),
        op=np.array(op, dtype=np.uint8),
        tie=np.zeros(len(op), dtype=np.bool_),
    )


def sew_rows(rows: Sequence[Row], *, start: tuple[float, float], hooping: Hooping) -> Stitches:
    """Return the rows as stitches on the piece, each place the sum of the steps before it."""
    steps = np.array([(dx, dy) for _, dx, dy in rows])
    steps[[op in {Op.CUT, Op.PAUSE} for op, _, _ in rows]] = 0.0
    field = np.cumsum(steps, axis=0) + start
    return make_stitches(hooping.to_piece(field), [op for op, _, _ in rows])


def _steps(op: Op, longest_mm: float) -> st.SearchStrategy[Row]:
    step = st.floats(-longest_mm, longest_mm, allow_subnormal=False)
    return st.tuples(st.just(op), step, step)


_STITCH = _steps(Op.STITCH, LONGEST_MM)
_JUMP = _steps(Op.JUMP, 90.0)
_STILL = st.sampled_from([(Op.CUT, 0.0, 0.0), (Op.PAUSE, 0.0, 0.0)])


@st.composite
def hoopings(draw: st.DrawFn) -> Hooping:
    """Return a hooping anywhere on a large quilt, turned by quarters."""
    place = st.floats(-3000, 3000, allow_subnormal=False)
    return Hooping(
        number=1,
        field=(400.0, 400.0),
        centre=(draw(place), draw(place)),
        turn_deg=draw(st.sampled_from([0.0, 90.0, 180.0, 270.0])),
    )


@st.composite
def sewn_hoopings(draw: st.DrawFn) -> tuple[Stitches, Hooping]:
    """Return several runs with cuts, jumps and pauses, on both sides of the field's centre."""
    hooping = draw(hoopings())
    place = st.floats(-150, 150, allow_subnormal=False)
    middle = st.lists(st.one_of(_STITCH, _STITCH, _STITCH, _JUMP, _STILL), max_size=40)
    rows = [
        *draw(st.lists(_JUMP, max_size=2)),
        draw(_STITCH),
        *draw(middle),
        draw(_STITCH),
        *draw(st.lists(st.one_of(_JUMP, st.just((Op.CUT, 0.0, 0.0))), max_size=2)),
    ]
    return sew_rows(rows, start=(draw(place), draw(place)), hooping=hooping), hooping


def gaps_by_hand(op: NDArray[np.uint8]) -> list[tuple[bool, int]]:
    """Return for each stitch but the first: is a cut before it, and how many pauses."""
    gaps: list[tuple[bool, int]] = []
    cut, pauses = False, 0
    for row in op:
        if row == Op.STITCH:
            gaps.append((cut, pauses))
            cut, pauses = False, 0
        cut = cut or row == Op.CUT
        pauses += row == Op.PAUSE
    return gaps[1:]
