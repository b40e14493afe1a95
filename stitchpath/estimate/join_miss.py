"""How far hoopings can be expected to miss each other where they join.

Formula. A hoop lined up with two marks lies off by chance. With an error e on each mark, along
either axis (standard deviation), marks d apart and a place at a distance r from their middle,
that place is off by sqrt(e^2 / 2 + 2 r^2 e^2 / d^2) across the way to the middle, and by less
along it. Two hoopings that are both lined up with marks on the piece miss each other by the
root of the sum of squares. Where each is lined up with the one before, all errors between them
add up.

In general, over n marks with middle c: the covariance of the error at a place p is
e^2 (I / n + q q^T / S), with q = p - c turned by 90 degrees and S the marks' summed squared
distances from c. Sums of this over hoopings need sums of 1/n, 1/S, c/S and c c^T/S alone.

Source: least squares for small angles (geometry; docs/placing.md has the derivation), and the
two-mark formula and its example in docs/sources.md.

Limits: no credit is given for a mark that both share: that its ink lies wrong would move both
alike.
"""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.model.hooping import Hooping, Join
from stitchpath.model.plan import JoinMiss

PLACED_BY: Final = 2
"""So many marks place a hoop; further ones are there to check by."""
TWO_SIDED_95: Final = 1.959964
"""Standard deviations that 95 of 100 normal errors stay within, to either side. Source: tables
of the normal distribution; tested against scipy."""


def spreads_of(hoopings: Sequence[Hooping]) -> NDArray[np.float64]:
    """Return what the errors of hoopings add up from, for an error of 1 on each mark.

    Args:
        hoopings: Each with two marks or more; the first two are apart.

    Returns:
        Shape (n, 7): 1/n, 1/S, then c/S and the three numbers of c c^T / S.
    """
    marks = np.array(
        [[mark.piece for mark in hooping.marks[:PLACED_BY]] for hooping in hoopings]
    )
    middle = marks.mean(axis=1)
    weight = 1.0 / np.square(marks - middle[:, None]).sum(axis=(1, 2))
    x, y = middle.T
    weighted = [weight * part for part in (np.ones_like(x), x, y, x * x, x * y, y * y)]
    return np.column_stack([np.full(len(marks), 1 / PLACED_BY), *weighted])


def worst_deviation(sums: NDArray[np.float64], places: Points) -> NDArray[np.float64]:
    """Return the standard deviation in the worst direction at places, shape (m,).

    Args:
        sums: Sums of rows of `spreads_of`, one for each place, shape (m, 7).
        places: On the piece, shape (m, 2), mm.
    """
    along, weight, cx, cy, cxx, cxy, cyy = sums.T
    x, y = places.T
    xx = weight * x * x - 2 * x * cx + cxx
    yy = weight * y * y - 2 * y * cy + cyy
    xy = weight * x * y - x * cy - y * cx + cxy
    turning = (xx + yy) / 2 + np.hypot((xx - yy) / 2, xy)
    return np.asarray(np.sqrt(along + np.maximum(turning, 0.0)))


def expect_misses(
    hoopings: Sequence[Hooping], joins: Sequence[Join], *, placing_error_mm: float
) -> JoinMiss | None:
    """Return what to expect where a stage's hoopings join; None where none do.

    Args:
        hoopings: In the order of sewing, numbered from 1.
        joins: Where they meet on lines.
        placing_error_mm: The standard deviation, along either axis, of how far a mark is from
            where the hoop was meant to have it.
    """
    if not joins:
        return None
    columns = spreads_of(hoopings)
    first, second = np.array([join.hoopings for join in joins]).T - 1
    places = np.array([join.place for join in joins])
    chain = np.concatenate([np.zeros((1, columns.shape[1])), np.cumsum(columns, axis=0)])
    scale = TWO_SIDED_95 * placing_error_mm
    by_marks = scale * worst_deviation(columns[first] + columns[second], places)
    # the first of the two is where it is; every one after it, up to the second, adds its own
    chained = scale * worst_deviation(chain[second + 1] - chain[first + 1], places)
    worst, worst_chained = int(by_marks.argmax()), int(chained.argmax())
    return JoinMiss(
        by_marks_mm=float(by_marks[worst]),
        by_marks_at=joins[worst],
        typical_mm=float(np.median(by_marks)),
        chained_mm=float(chained[worst_chained]),
        chained_at=joins[worst_chained],
        by_marks_each=tuple(by_marks.tolist()),
        chained_each=tuple(chained.tolist()),
    )
