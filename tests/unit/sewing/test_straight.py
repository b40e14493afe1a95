"""Straight stretches: equal stitches, however many stretches are taken at a time."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.sewing.straight import Straights, straight_points


def _straights(counts: list[int], opens: list[bool]) -> Straights:
    """Return stretches of 7 mm one after another, each 10 mm below the one before."""
    start = np.column_stack([np.zeros(len(counts)), 10.0 * np.arange(len(counts))])
    step = np.tile([7.0, 1.0], (len(counts), 1))
    effort = np.full(len(counts), 2.5)
    return Straights(
        start=start,
        step=step,
        end=start + step,
        begin=np.cumsum(effort) - effort,
        effort=effort,
        count=np.array(counts, dtype=np.intp),
        opens=np.array(opens, dtype=np.bool_),
    )


def test_a_stretch_that_opens_a_path_has_its_start_as_well() -> None:
    points = straight_points(_straights([1, 1], [True, False]))
    assert points.tolist() == [[0, 0], [7, 1], [7, 11]]


def test_no_stretches_have_no_points() -> None:
    assert straight_points(_straights([], [])).shape == (0, 2)


@given(data=st.lists(st.tuples(st.integers(1, 9), st.booleans()), min_size=1, max_size=12))
def test_points_divide_each_stretch_evenly(data: list[tuple[int, bool]]) -> None:
    """Against numpy's linspace; in parts of any size the very same."""
    counts, opens = [count for count, _ in data], [is_open for _, is_open in data]
    stretches = _straights(counts, opens)
    points = straight_points(stretches)
    rows = zip(stretches.start, stretches.end, counts, opens, strict=True)
    even = [
        np.linspace(one, other, count + 1)[not first :] for one, other, count, first in rows
    ]
    assert np.allclose(points, np.concatenate(even), rtol=0, atol=1e-9)
    for size in (1, 4):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("stitchpath.sewing.straight._AT_A_TIME", size)
            assert np.array_equal(straight_points(stretches), points)
