"""Scaled runs of stitch files: needle points made anew along them.

Each run keeps its own stitch, the middle one of its stitches in the file, and its corners. What
a file has for ties is left out, since it would be scaled as well; ours are put there.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.line import Line, run_of
from stitchpath.model.machine import Machine
from stitchpath.sewing.distinct import distinct
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.sample import sample_paths
from stitchpath.sewing.tie import tied_points


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Way:
    """A part of a run that is sewn without a move or a pause within.

    Attributes:
        points: Its vertices; of a part that goes on, the last one of the part before first.
        goes_on: Whether it is sewn on from the part before, after a pause.
        paused: Whether the machine stops before it.
    """

    points: Points
    goes_on: bool
    paused: bool


def resampled(lines: tuple[Line, ...], machine: Machine) -> tuple[Line, ...]:
    """Return lines in which scaled runs of stitch files have new needle points.

    Args:
        lines: Of a stage; those that are not scaled stay as they are.
        machine: Its shortest and longest stitch.
    """
    scaled = [
        (at, _untied(line))
        for at, line in enumerate(lines)
        if line.file_run is not None and line.file_run.is_scaled
    ]
    if not scaled:
        return lines
    limits = StitchLimits.with_rounding_room(machine.shortest_stitch, machine.longest_stitch)
    ways = [list(_ways(line)) for _, line in scaled]
    paths = [distinct(way.points) for own in ways for way in own if _is_long(way)]
    stitch_mm = [
        float(np.clip(line.stitch_mm, limits.shortest_mm, limits.longest_mm))
        for own, (_, line) in zip(ways, scaled, strict=True)
        for way in own
        if _is_long(way)
    ]
    made = iter(_needle_points(paths, stitch_mm, limits))
    changed = list(lines)
    for own, (at, line) in zip(ways, scaled, strict=True):
        new = [next(made) if _is_long(way) else way.points[:1] for way in own]
        changed[at] = _put_together(line, own, new)
    return tuple(changed)


def _needle_points(
    paths: list[Points], stitch_mm: list[float], limits: StitchLimits
) -> list[Points]:
    if not paths:
        return []
    sampled = sample_paths(paths, np.array(stitch_mm), limits)
    return np.split(sampled.xy, sampled.starts[1:-1])


def _untied(line: Line) -> Line:
    """Return a line without the short stitches of its file's own ties."""
    run, count = run_of(line), len(line.points)
    points = line.points / run.scale
    keep = np.ones(count, dtype=np.bool_)
    first, last = tied_points(points), tied_points(points[::-1])
    keep[1 : 1 + first] = keep[count - 1 - last : count - 1] = False
    keep[[0, -1]] = True
    keep |= run.moved | run.paused
    columns = replace(run, moved=run.moved[keep], paused=run.paused[keep])
    return replace(line, points=line.points[keep], file_run=columns)


def _ways(line: Line) -> Iterator[_Way]:
    run = run_of(line)
    breaks = np.flatnonzero(run.moved[1:] | run.paused[1:]) + 1
    for first, last in zip([0, *breaks], [*breaks, len(line.points)], strict=True):
        goes_on = bool(first > 0 and not run.moved[first])
        points = line.points[first - goes_on : last]
        yield _Way(points=points, goes_on=goes_on, paused=bool(run.paused[first]))


def _is_long(way: _Way) -> bool:
    return path_length(way.points) > SAME_POINT_MM


def _put_together(line: Line, ways: list[_Way], new: list[Points]) -> Line:
    """Return a line with new needle points; moves and pauses are where they were."""
    parts: list[Points] = []
    moved: list[NDArray[np.bool_]] = []
    paused: list[NDArray[np.bool_]] = []
    for number, (way, points) in enumerate(zip(ways, new, strict=True)):
        own = points[1:] if way.goes_on and len(points) > 1 else points
        is_first = np.arange(len(own)) == 0
        parts.append(own)
        moved.append(is_first & (number > 0) & (not way.goes_on))
        paused.append(is_first & way.paused)
    if sum(map(len, parts)) == 1:  # nothing but ties on the spot
        return replace(line, file_run=replace(run_of(line), scale=1.0))
    run = replace(
        run_of(line), moved=np.concatenate(moved), paused=np.concatenate(paused), scale=1.0
    )
    return replace(line, points=np.concatenate(parts), file_run=run)
