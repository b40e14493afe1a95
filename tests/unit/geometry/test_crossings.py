"""Where segments are crossed or met. Geometry."""

import numpy as np
import pytest
from numpy.typing import ArrayLike

from stitchpath.geometry.crossings import meetings_on

ACROSS = [[0, 0], [100, 0]]


def _along(other: ArrayLike) -> list[float]:
    ends = np.array([ACROSS], dtype=np.float64), np.array([other], dtype=np.float64)
    _, _, along = meetings_on(*ends)
    return [round(place, 9) for place in along.tolist()]


@pytest.mark.parametrize(
    ("other", "along"),
    [
        ([[40, -5], [40, 5]], [40]),
        ([[40, 0], [40, 5]], [40]),  # ends on it
        ([[40, 0.0005], [40, 5]], [40]),  # ends on it but for what clipping blurs
        ([[40, 0.1], [40, 5]], []),  # does not reach it
        ([[0, -10], [20, 10]], [10]),
        ([[100, 0], [120, 30]], [100]),
        ([[101, -5], [101, 5]], []),
        ([[20, 0], [70, 0]], []),  # runs along it
        ([[20, 0], [70, 3]], []),  # at 3.4 degrees it is beside it for long
        ([[40, 0], [70, 9]], [40]),  # at 16.7 degrees it crosses
    ],
)
def test_meetings_of_one_segment(other: ArrayLike, along: list[float]) -> None:
    assert _along(other) == along


def test_rows_of_both_are_told() -> None:
    segments = np.array([[[0.0, 0.0], [10.0, 0.0]], [[0.0, 5.0], [10.0, 5.0]]])
    others = np.array([[[3.0, -1.0], [3.0, 6.0]], [[7.0, 4.0], [7.0, 6.0]]])
    found = sorted(
        zip(*(column.tolist() for column in meetings_on(segments, others)), strict=True)
    )
    assert found == [(0, 0, 3), (1, 0, 3), (1, 1, 7)]
