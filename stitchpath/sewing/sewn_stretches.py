"""Stretches of paths between corners (or ends), and how many stitches each takes.

A stretch of one segment is straight; any other is a flattened curve, followed within a
tolerance: the chord of a stitch of length s on a circle of radius r leaves it by s^2 / 8r, so
s <= sqrt(8 r d) for a deviation d. The shortest stitch goes before: where it is s, curves
tighter than about s^2 / 8d (2.5 mm for 1 mm and 0.05 mm) are left by more.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, lengths_of, turns_between
from stitchpath.geometry.tolerance import SHARP_TURN_DEG, WHOLE
from stitchpath.sewing.limits import StitchLimits


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Segments:
    """The segments of all paths, one row each."""

    start: Points
    step: Points
    length: NDArray[np.float64]
    stitch: NDArray[np.float64]
    path: NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SewnStretches:
    """The stretches of all paths, one row each, and the segments that they consist of.

    Attributes:
        head: The first segment of each, shape (n,).
        start: Where each begins, shape (n, 2), mm.
        end: Where it ends, shape (n, 2), mm.
        length: How long it is, shape (n,), mm.
        effort: The stitches that it takes, a fraction as yet, shape (n,).
        path: The path that it is a part of, shape (n,).
        segment_start: Where each segment begins, shape (segments, 2), mm.
        segment_step: The way from there to its end, shape (segments, 2), mm.
        segment_effort: The stitches that it takes, shape (segments,).
    """

    head: NDArray[np.intp]
    start: Points
    end: Points
    length: NDArray[np.float64]
    effort: NDArray[np.float64]
    path: NDArray[np.intp]
    segment_start: Points
    segment_step: Points
    segment_effort: NDArray[np.float64]

    @property
    def opens(self) -> NDArray[np.bool_]:
        """Which stretches open a path, shape (n,)."""
        return np.asarray(np.diff(self.path, prepend=-1) > 0)

    @property
    def is_straight(self) -> NDArray[np.bool_]:
        """Which stretches are one segment, shape (n,)."""
        return np.asarray(np.diff(np.append(self.head, len(self.segment_effort))) == 1)

    @property
    def begin(self) -> NDArray[np.float64]:
        """The stitches that come before each, on all paths, a fraction as yet, shape (n,)."""
        return np.asarray((np.cumsum(self.segment_effort) - self.segment_effort)[self.head])

    def counts(self, limits: StitchLimits) -> NDArray[np.intp]:
        """Return how many stitches each takes: enough, not too short, never too long."""
        wanted = np.ceil(self.effort * (1 - WHOLE))
        at_most = np.floor(self.length / limits.shortest_mm * (1 + WHOLE))
        at_least = np.ceil(self.length / limits.longest_mm * (1 - WHOLE))
        return np.maximum(np.maximum(np.minimum(wanted, at_most), at_least), 1).astype(np.intp)

    def places(self, stretch: NDArray[np.intp], share: NDArray[np.float64]) -> Points:
        """Return where on a stretch a share of its effort is done, shape (m, 2), mm."""
        target = share * self.effort[stretch]
        xy = self._places(stretch, target, self.segment_effort)
        is_end = share == 1.0
        xy[is_end] = self.end[stretch[is_end]]  # corners exactly
        return xy

    def middles(self, stretch: NDArray[np.intp]) -> Points:
        """Return where half the length of a stretch lies behind, shape (m, 2), mm."""
        return self._places(stretch, self.length[stretch] / 2, lengths_of(self.segment_step))

    def _places(
        self,
        stretch: NDArray[np.intp],
        done: NDArray[np.float64],
        amounts: NDArray[np.float64],
    ) -> Points:
        """Return where on a stretch so much is done, of the amounts that its segments take."""
        ends = np.cumsum(amounts)
        begins = ends - amounts
        target = begins[self.head][stretch] + done
        segment = np.minimum(np.searchsorted(ends, target), len(ends) - 1)
        segment = np.maximum(segment, self.head[stretch])
        within = np.clip((target - begins[segment]) / amounts[segment], 0.0, 1.0)
        xy = self.segment_start[segment] + within[:, None] * self.segment_step[segment]
        return np.asarray(xy)


def sewn_stretches(
    paths: list[Points], stitch_mm: NDArray[np.float64], limits: StitchLimits
) -> SewnStretches:
    """Return the stretches of some paths; all as in `sample_paths`.

    Cost: O(vertices), in whole arrays.
    """
    segments = _segments(paths, stitch_mm)
    effort, heads = _effort(segments, limits)
    tails = np.append(heads[1:], len(effort)) - 1
    return SewnStretches(
        head=heads,
        start=segments.start[heads],
        end=segments.start[tails] + segments.step[tails],
        length=np.add.reduceat(segments.length, heads),
        effort=np.add.reduceat(effort, heads),
        path=segments.path[heads],
        segment_start=segments.start,
        segment_step=segments.step,
        segment_effort=effort,
    )


def _segments(paths: list[Points], stitch_mm: NDArray[np.float64]) -> _Segments:
    vertices = np.concatenate(paths)
    path_of = np.repeat(np.arange(len(paths)), [len(path) for path in paths])
    first = np.flatnonzero(np.diff(path_of) == 0)
    step = vertices[first + 1] - vertices[first]
    return _Segments(
        start=vertices[first],
        step=step,
        length=lengths_of(step),
        stitch=stitch_mm[path_of[first]],
        path=path_of[first],
    )


def _effort(
    segments: _Segments, limits: StitchLimits
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return the stitches each segment takes, and which segments begin a stretch.

    A stretch begins at sharp turns, and at turns between segments so long that a stitch across
    would leave the line by more than the tolerance.
    """
    length, stitch = segments.length, segments.stitch
    turn = np.concatenate([[np.inf], turns_between(segments.step)])
    turn[1:][np.diff(segments.path) != 0] = np.inf
    between = np.concatenate([[1.0], (length[1:] + length[:-1]) / 2])
    shortcut = np.minimum(stitch, between) * turn / 4
    angular = (between >= stitch / 2) & (shortcut > limits.deviation_mm)
    opens = (np.radians(SHARP_TURN_DEG) < turn) | angular
    curvature = np.where(opens, 0.0, turn) / between
    curvature = np.maximum(curvature, np.append(curvature[1:], 0.0))
    followed = np.minimum(
        np.sqrt(curvature / (8 * limits.deviation_mm)), 1 / limits.shortest_mm
    )
    return length * np.maximum(1 / stitch, followed), np.flatnonzero(opens)
