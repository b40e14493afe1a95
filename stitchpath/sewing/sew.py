"""Runs into stitches: needle points with ties, jumps, cuts and pauses."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import DEVIATION_MM, SAME_POINT_MM
from stitchpath.model.project import Machine
from stitchpath.model.stitches import Op, Run, Stitches
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
    thread is cut, where the machine does that.

    Args:
        runs: What is sewn, in order; at least one.
        machine: Its longest and shortest stitch, and whether it cuts thread.
        draws_up: Make one stitch and a pause at each run's start, so that the maker can draw
            the bobbin thread up.
    """
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
    points, stitch_mm = _distinct(run.lines[0].points), run.lines[0].stitch_mm
    opens = True
    for line in run.lines[1:]:
        touches = np.hypot(*(line.points[0] - points[-1])) <= SAME_POINT_MM
        if touches and line.stitch_mm == stitch_mm:
            points = _gone_on(points, _distinct(line.points))
        else:
            yield _Path(points=points, stitch_mm=stitch_mm, opens_run=opens)
            points, stitch_mm, opens = _distinct(line.points), line.stitch_mm, False
    yield _Path(points=points, stitch_mm=stitch_mm, opens_run=opens)


def _gone_on(points: Points, more: Points) -> Points:
    """Return a path that goes on; a vertex just beside the joint is left out for it."""
    if len(points) > 2 and np.hypot(*(points[-2] - points[-1])) <= DEVIATION_MM:  # noqa: PLR2004 - ends stay
        points = np.delete(points, -2, axis=0)
    if len(more) > 2 and np.hypot(*(more[1] - more[0])) <= DEVIATION_MM:  # noqa: PLR2004 - ends stay
        more = more[1:]
    return np.concatenate([points, more[1:]])


def _distinct(points: Points) -> Points:
    """Return a polyline without vertices that lie on the one before; its ends stay."""
    moved = np.hypot(*np.diff(points, axis=0).T) > SAME_POINT_MM
    if moved.all():
        return points
    kept: Points = points[np.concatenate([[True], moved])]
    kept[-1] = points[-1]
    return kept


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
