"""Runs into stitches: needle points with ties, jumps, cuts and pauses."""

from collections.abc import Iterator

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.project import Machine
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.sample import sample_paths
from stitchpath.sewing.tie import tie_points


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
    opens_run = [index == 0 for run in runs for index, _ in enumerate(_paths(run))]
    limits = StitchLimits.with_rounding_room(machine.shortest_stitch, machine.longest_stitch)
    stitch_mm = np.array([stitch for _, stitch in paths])
    sampled = sample_paths([points for points, _ in paths], stitch_mm, limits)
    places: list[Points] = []
    ops: list[list[Op]] = []
    ties: list[list[bool]] = []
    for index, opens in enumerate(opens_run):
        points = sampled.xy[sampled.starts[index] : sampled.starts[index + 1]]
        head = [Op.JUMP, Op.STITCH, *([Op.PAUSE] if opens and draws_up else [])]
        if opens and index > 0 and machine.cuts_thread:
            places.append(places[-1][-1:])
            ops.append([Op.CUT])
            ties.append([False])
        tie_in, tie_out = tie_points(points), tie_points(points[::-1])[::-1]
        places += [points[[0] * len(head)], tie_in, points[1:-1], tie_out, points[-1:]]
        sewn = len(tie_in) + len(points) - 2 + len(tie_out) + 1
        ops.append([*head, *[Op.STITCH] * sewn])
        # the stitch that leaves a tie may be short too, so it counts as part of it
        inner = max(len(points) - 3, 0)
        before = len(tie_in) + 1
        ties.append([False] * len(head) + [True] * before + [False] * inner)
        ties[-1] += [True] * (len(ops[-1]) - len(ties[-1]))
    return Stitches(xy=np.concatenate(places), op=np.concatenate(ops), tie=np.concatenate(ties))


def _paths(run: Run) -> Iterator[tuple[Points, float]]:
    """Yield the points of each path of a run, and its stitch length."""
    points, stitch_mm = _distinct(run.lines[0].points), run.lines[0].stitch_mm
    for line in run.lines[1:]:
        touches = np.hypot(*(line.points[0] - points[-1])) <= SAME_POINT_MM
        if touches and line.stitch_mm == stitch_mm:
            points = np.concatenate([points, _distinct(line.points)[1:]])
        else:
            yield points, stitch_mm
            points, stitch_mm = _distinct(line.points), line.stitch_mm
    yield points, stitch_mm


def _distinct(points: Points) -> Points:
    """Return a polyline without vertices that lie on the one before; its ends stay."""
    moved = np.hypot(*np.diff(points, axis=0).T) > SAME_POINT_MM
    if moved.all():
        return points
    kept: Points = points[np.concatenate([[True], moved])]
    kept[-1] = points[-1]
    return kept
