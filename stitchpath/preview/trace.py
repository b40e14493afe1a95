"""What the needle does, taken apart for drawing: strands, runs, moves, cuts, pauses."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.paths import ranges
from stitchpath.geometry.points import Points, parts_of
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.plan import SewnHooping
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.preview.polylines import Polylines, joined


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Trace:
    """The needle's way.

    Attributes:
        strands: Thread that lies without a jump in between; all needle points in order.
        run_of: The run of each strand, counted from 0, ascending.
        numbers: The number of each run, from 1 in its hooping.
        is_basting: Of each strand, whether it is taken out when the quilt is done.
        thread_of: The thread of each strand: 0 is the stage's, see `Line.file_run`.
        travels: Moves after a thread cut, up to the next needle point.
        hops: Moves with the thread uncut.
        cuts: Where the thread is cut.
        pauses: Where the machine stops for the maker.
    """

    strands: Polylines
    run_of: NDArray[np.intp]
    numbers: NDArray[np.intp]
    is_basting: NDArray[np.bool_]
    thread_of: NDArray[np.intp]
    travels: Polylines
    hops: Polylines
    cuts: Points
    pauses: Points

    @property
    def first_points(self) -> Points:
        """Where each run starts."""
        return self.strands.points[self.strands.starts[self._first_strands]]

    @property
    def last_points(self) -> Points:
        """Where each run ends."""
        rows = np.append(self.strands.starts[self._first_strands][1:], len(self.strands.points))
        return self.strands.points[rows - 1] if len(self.numbers) else np.empty((0, 2))

    @property
    def _first_strands(self) -> NDArray[np.intp]:
        return np.searchsorted(self.run_of, np.arange(len(self.numbers)))


def sewn_again(
    hoopings: Iterable[SewnHooping], place: Callable[[Points], Points] = lambda points: points
) -> Polylines:
    """Return the lines that hoopings sew a second time, to go on without a thread cut.

    Args:
        hoopings: What is sewn.
        place: Moves points into the frame of the picture.
    """
    runs = [run for sewn in hoopings for run in sewn.runs]
    return Polylines.of(place(line.points) for run in runs for line in run.lines if line.again)


def trace(
    stitches: Stitches,
    place: Callable[[Points], Points] = lambda points: points,
    *,
    runs: Sequence[Run] = (),
    basted: int = 0,
) -> Trace:
    """Return what the needle does.

    Args:
        stitches: Needle points and commands of one hooping.
        place: Moves points into the frame of the picture.
        runs: What is sewn, to tell runs apart where the machine does not cut the thread.
        basted: So many needle points, the first ones, are basting.
    """
    is_point = stitches.op == Op.STITCH
    others = np.flatnonzero(~is_point)
    before = others - np.arange(len(others))  # so many needle points
    total = len(stitches) - len(others)
    starts, after_cut = _strands(stitches.op[others], before, total)
    begins = _begins_run(stitches.xy[_rows_of(starts, before)], runs)
    begins[:1] = True
    begins[1:] |= after_cut
    count, run_of = int(begins.sum()), np.cumsum(begins) - 1
    begun = starts[1:]  # the strands that another one came before
    moves = _moves(stitches.xy, _rows_of(begun - 1, before), _rows_of(begun, before), place)
    points, done = np.empty((total, 2)), 0
    for part in parts_of(len(stitches)):
        own = place(stitches.xy[part].compress(is_point[part], axis=0))
        points[done : done + len(own)] = own
        done += len(own)
    points.setflags(write=False)
    return Trace(
        strands=Polylines(points=points, starts=starts),
        run_of=run_of,
        numbers=np.arange(1, count + 1),
        is_basting=starts < basted,
        thread_of=_threads(runs, count)[run_of],
        travels=Polylines.of(_chosen(moves, after_cut)),
        hops=Polylines.of(_chosen(moves, ~after_cut)),
        cuts=place(stitches.xy[stitches.op == Op.CUT]),
        pauses=place(stitches.xy[stitches.op == Op.PAUSE]),
    )


def _strands(
    ops: NDArray[np.uint8], before: NDArray[np.intp], total: int
) -> tuple[NDArray[np.intp], NDArray[np.bool_]]:
    """Return which needle points begin a strand, and which of these but the first follow a cut.

    Args:
        ops: What the machine does besides sewing.
        before: How many needle points stand before each of these, ascending.
        total: How many needle points there are.
    """
    between = (before > 0) & (before < total)
    cuts = before[between & (ops == Op.CUT)]
    parted = np.unique(before[between & ((ops == Op.CUT) | (ops == Op.JUMP))])
    first = np.zeros(min(1, total), dtype=np.intp)
    return np.concatenate([first, parted]), np.isin(parted, cuts)


def _rows_of(points: NDArray[np.intp], before: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return the rows of some needle points, by how many stand before each of all others."""
    return np.asarray(points + np.searchsorted(before, points, side="right"))


def _moves(
    xy: Points,
    first: NDArray[np.intp],
    last: NDArray[np.intp],
    place: Callable[[Points], Points],
) -> list[Points]:
    """Return the ways from some rows to later ones, moved into the frame of the picture."""
    counts = last - first + 1
    moved, ends = place(xy[ranges(first, counts)]), np.cumsum(counts)
    return [moved[end - count : end] for end, count in zip(ends, counts, strict=True)]


def _begins_run(places: Points, runs: Sequence[Run]) -> NDArray[np.bool_]:
    """Return which strands, by their first points, begin the next of some runs."""
    begins = np.zeros(len(places), dtype=np.bool_)
    wanted = iter(run.lines[0].points[0].tolist() for run in runs)
    start = next(wanted, None)
    for index, place in enumerate(places.tolist()):
        if start is not None and math.dist(place, start) <= SAME_POINT_MM:
            begins[index] = True
            start = next(wanted, None)
    return begins


def _threads(runs: Sequence[Run], count: int) -> NDArray[np.intp]:
    """Return the threads of so many runs that are sewn: those that were planned come last."""
    files = [run.lines[0].file_run for run in runs]
    planned = [0 if one is None else one.thread for one in files][-count:] if count else []
    return np.array([*[0] * (count - len(planned)), *planned], dtype=np.intp)


def joined_traces(traces: Sequence[Trace]) -> Trace:
    """Return several hoopings' traces as one; the numbers of the runs start anew in each."""
    counts = np.cumsum([0, *(len(one.numbers) for one in traces)])
    return Trace(
        strands=joined([one.strands for one in traces]),
        run_of=_one([one.run_of + n for one, n in zip(traces, counts, strict=False)]),
        numbers=_one([one.numbers for one in traces]),
        is_basting=_one([one.is_basting for one in traces]).astype(np.bool_),
        thread_of=_one([one.thread_of for one in traces]),
        travels=joined([one.travels for one in traces]),
        hops=joined([one.hops for one in traces]),
        cuts=np.vstack([np.empty((0, 2)), *(one.cuts for one in traces)]),
        pauses=np.vstack([np.empty((0, 2)), *(one.pauses for one in traces)]),
    )


def _one(columns: Sequence[NDArray[np.intp] | NDArray[np.bool_]]) -> NDArray[np.intp]:
    return np.concatenate([np.empty(0, dtype=np.intp), *columns])


def _chosen(moves: Sequence[Points], wanted: NDArray[np.bool_]) -> list[Points]:
    return [move for move, keep in zip(moves, wanted, strict=True) if keep]
