"""Runs into stitches: needle points with ties, jumps, cuts and pauses."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, pairwise

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import DEVIATION_MM, SAME_POINT_MM
from stitchpath.model.machine import Machine
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.sewing.distinct import distinct
from stitchpath.sewing.from_file import sew_file_line
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.sample import Sampled, sample_paths
from stitchpath.sewing.tie import tie_places


@dataclass(frozen=True, slots=True, kw_only=True)
class _Path:
    """What is sewn in one go: its vertices, its stitch, and whether it opens a run."""

    points: Points
    stitch_mm: float
    opens_run: bool


def sew(runs: tuple[Run, ...], machine: Machine, *, draws_up: bool) -> Stitches:
    """Return what the needle does in one hooping.

    A path is what is sewn in one go: lines of a run that begin where the one before ends. Each
    path begins with a move to its first point and a tie, and ends with a tie. Between runs the
    thread is cut, where the machine does that. Lines from stitch files keep their needle
    points; the machine stops where another thread is due.

    Args:
        runs: What is sewn, in order; at least one. A line from a file is a run by itself.
        machine: Its longest and shortest stitch, and whether it cuts thread.
        draws_up: Make one stitch and a pause at each run's start, so that the maker can draw
            the bobbin thread up.
    """
    parts: list[_Part] = []
    for _, group in groupby(enumerate(runs), key=_kind):
        own = tuple(run for _, run in group)
        file_run = own[0].lines[0].file_run
        if file_run is None:
            sewn = _sew_lines(own, machine, draws_up=draws_up)
            parts.append(_Part(stitches=sewn))
        else:
            sewn = sew_file_line(own[0].lines[0], draws_up=draws_up)
            stops = bool(file_run.paused[0])
            parts.append(_Part(stitches=sewn, thread=file_run.thread, stops=stops))
    return parts[0].stitches if len(parts) == 1 else _joined(parts, cuts=machine.cuts_thread)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Part:
    """Stitches that begin and end a run, their thread, and whether they begin with a stop."""

    stitches: Stitches
    thread: int = 0
    stops: bool = False


def _kind(numbered: tuple[int, Run]) -> int:
    """Return a key that runs of lines share, and each line from a stitch file has alone."""
    number, run = numbered
    return -1 if run.lines[0].file_run is None else number


def _joined(parts: list[_Part], *, cuts: bool) -> Stitches:
    """Return parts one after another, with a cut between and a pause where one is due."""
    every = [parts[0].stitches]
    for before, part in pairwise(parts):
        pauses = part.stops or part.thread != before.thread
        op = [Op.CUT] * cuts + [Op.PAUSE] * pauses
        every += [
            Stitches(
                xy=np.tile(before.stitches.xy[-1], (len(op), 1)),
                op=np.array(op, dtype=np.uint8),
                tie=np.zeros(len(op), dtype=np.bool_),
            ),
            part.stitches,
        ]
    return Stitches(
        xy=np.concatenate([one.xy for one in every]),
        op=np.concatenate([one.op for one in every]),
        tie=np.concatenate([one.tie for one in every]),
    )


def _sew_lines(runs: tuple[Run, ...], machine: Machine, *, draws_up: bool) -> Stitches:
    paths = [path for run in runs for path in _paths(run)]
    limits = StitchLimits.with_rounding_room(machine.shortest_stitch, machine.longest_stitch)
    stitch_mm = np.array([path.stitch_mm for path in paths])
    goes_again = any(line.again for run in runs for line in run.lines)
    points = [path.points for path in paths]
    sampled = sample_paths(points, stitch_mm, limits, goes_again=goes_again)
    opens = np.array([path.opens_run for path in paths])
    cuts = opens & machine.cuts_thread
    cuts[0] = False
    return _assemble(sampled, cuts=cuts, pauses=opens & draws_up)


def _paths(run: Run) -> Iterator[_Path]:
    points, stitch_mm = distinct(run.lines[0].points), run.lines[0].stitch_mm
    opens = True
    for line in run.lines[1:]:
        touches = np.hypot(*(line.points[0] - points[-1])) <= SAME_POINT_MM
        if touches and line.stitch_mm == stitch_mm:
            points = _gone_on(points, distinct(line.points))
        else:
            yield _Path(points=points, stitch_mm=stitch_mm, opens_run=opens)
            points, stitch_mm, opens = distinct(line.points), line.stitch_mm, False
    yield _Path(points=points, stitch_mm=stitch_mm, opens_run=opens)


def _gone_on(points: Points, more: Points) -> Points:
    """Return a path that goes on; a vertex just beside the joint is left out for it."""
    if len(points) > 2 and np.hypot(*(points[-2] - points[-1])) <= DEVIATION_MM:  # noqa: PLR2004 - ends stay
        points = np.delete(points, -2, axis=0)
    if len(more) > 2 and np.hypot(*(more[1] - more[0])) <= DEVIATION_MM:  # noqa: PLR2004 - ends stay
        more = more[1:]
    return np.concatenate([points, more[1:]])


def _assemble(
    sampled: Sampled, *, cuts: NDArray[np.bool_], pauses: NDArray[np.bool_]
) -> Stitches:
    """Lay the rows of all paths out one after another.

    A path's rows: a cut or none, the jump to its start, its first needle point, a pause or
    none, the first tie, its inner needle points, the last tie, its last needle point.
    """
    tie_in, tie_out = tie_places(sampled)
    tied = tie_in.shape[1]
    inner = np.diff(sampled.starts) - 2
    jump = np.cumsum(cuts + 2 + pauses + tied + inner + tied + 1)
    jump = np.concatenate([[0], jump[:-1]]) + cuts
    begins = jump + 2 + pauses
    rows = int(begins[-1] + tied + inner[-1] + tied + 1)
    xy = np.empty((rows, 2))
    op = np.full(rows, Op.STITCH, dtype=np.uint8)
    tie = np.zeros(rows, dtype=bool)
    first, last = sampled.xy[sampled.starts[:-1]], sampled.xy[sampled.starts[1:] - 1]
    ends = begins + tied + inner + tied
    xy[jump], xy[jump + 1], xy[ends] = first, first, last
    op[jump] = Op.JUMP
    op[jump[cuts] - 1], xy[jump[cuts] - 1] = Op.CUT, last[np.flatnonzero(cuts) - 1]
    op[jump[pauses] + 2], xy[jump[pauses] + 2] = Op.PAUSE, first[pauses]
    walk = np.arange(tied)
    xy[begins[:, None] + walk] = tie_in
    xy[(begins + tied + inner)[:, None] + walk] = tie_out
    begin, stop = sampled.starts[:-1] + 1, sampled.starts[1:] - 1
    for to, first_row, after in zip(
        (begins + tied).tolist(), begin.tolist(), stop.tolist(), strict=True
    ):
        xy[to : to + after - first_row] = sampled.xy[first_row:after]
    # the stitch that leaves a tie may be short as well, so it counts as part of it
    tie[begins[:, None] + np.arange(tied + 1)] = True
    tie[ends[:, None] - np.arange(tied + 1)] = True
    xy.setflags(write=False)  # so that nobody copies it
    return Stitches(xy=xy, op=op, tie=tie)
