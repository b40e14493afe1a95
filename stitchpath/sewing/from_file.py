"""Lines from stitch files into stitches: their own needle points, ties where the file has none.

A run that begins and ends with short stitches, or stitches on the spot, is tied already.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, path_length, segment_lengths
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.design import SewnDesign
from stitchpath.model.line import Line, run_of
from stitchpath.model.plan import SewnHooping
from stitchpath.model.stitches import Op, Stitches
from stitchpath.sewing.distinct import distinct
from stitchpath.sewing.sample import Sampled
from stitchpath.sewing.tie import LOCK_MM, LOCK_STITCHES, tie_places, tied_points

_Rows: TypeAlias = tuple[NDArray[np.intp], Points, NDArray[np.uint8], NDArray[np.bool_]]
"""Rows to put in: before which needle point, where, what, whether part of a tie."""


def sew_file_line(line: Line, *, draws_up: bool) -> Stitches:
    """Return a line's own needle points, with a move to the first one and ties at its ends.

    Args:
        line: From a stitch file.
        draws_up: Make a pause after the first needle point.
    """
    points, run = line.points, run_of(line)
    first, last = _ties(points)
    moved, paused = (np.flatnonzero(column[1:]) + 1 for column in (run.moved, run.paused))
    rows = (
        _rows(0, points[:1], Op.JUMP),
        _rows(1, points[: int(draws_up)], Op.PAUSE),
        _rows(1, first, Op.STITCH),
        _rows(paused, points[paused - 1], Op.PAUSE),
        _rows(moved, points[moved], Op.JUMP),
        _rows(len(points) - 1, last, Op.STITCH),
    )
    at, more, op, added = (np.concatenate(column) for column in zip(*rows, strict=True))
    xy = np.insert(points, at, more, axis=0)
    near_tie = np.insert(_near_ties(len(points), (len(first), len(last))), at, values=False)
    is_short = np.concatenate([[False], segment_lengths(xy) <= LOCK_MM])
    return Stitches(
        xy=xy,
        op=np.insert(np.full(len(points), Op.STITCH, dtype=np.uint8), at, op),
        tie=(near_tie & is_short) | np.insert(np.zeros(len(points), dtype=np.bool_), at, added),
    )


def count_designs(
    designs: tuple[SewnDesign, ...], hoopings: tuple[SewnHooping, ...]
) -> tuple[SewnDesign, ...]:
    """Return a stage's designs with what is really sewn of them."""
    sewn, ties = Counter[int](), Counter[int]()
    hooped: dict[tuple[int, int | None], set[int]] = defaultdict(set)
    parts = Counter[tuple[int, int | None, int]]()
    for number, line in _file_lines(hoopings):
        run = run_of(line)
        added = sum(map(len, _ties(line.points)))
        sewn[run.design] += len(line.points) + added
        ties[run.design] += added
        hooped[run.design, line.motif].add(number)
        parts[run.design, line.motif, run.run] += 1
    return tuple(
        replace(
            design,
            sewn=sewn[number],
            ties=ties[number],
            divided=sum(len(on) > 1 for (own, _), on in hooped.items() if own == number),
            divided_runs=sum(count > 1 for (own, *_), count in parts.items() if own == number),
        )
        for number, design in enumerate(designs)
    )


def _file_lines(hoopings: tuple[SewnHooping, ...]) -> Iterator[tuple[int, Line]]:
    for sewn in hoopings:
        for run in sewn.runs:
            for line in run.lines:
                if line.file_run is not None:
                    yield sewn.hooping.number, line


def _rows(at: int | NDArray[np.intp], places: Points, op: Op) -> _Rows:
    """Return rows of one kind; the only stitches that are put in are those of ties."""
    count = len(places)
    return (
        np.full(count, at, dtype=np.intp),
        places,
        np.full(count, op, dtype=np.uint8),
        np.full(count, op == Op.STITCH),
    )


def _ties(points: Points) -> tuple[Points, Points]:
    """Return the needle points of the ties at a run's ends, none where it has its own."""
    none = np.empty((0, 2))
    if path_length(points) <= SAME_POINT_MM:
        return none, none
    path = distinct(points)
    first, last = tie_places(Sampled(xy=path, starts=np.array([0, len(path)])))
    return (
        none if tied_points(points) else first[0],
        none if tied_points(points[::-1]) else last[0],
    )


def _near_ties(count: int, added: tuple[int, int]) -> NDArray[np.bool_]:
    """Return at which of a run's own needle points a short stitch belongs to a tie.

    Beside a tie that is added that is the stitch that leaves it alone.

    Args:
        count: Needle points of the run.
        added: Needle points of the ties added at its first and last end.
    """
    rows = np.arange(count)
    first, last = (1 if ours else LOCK_STITCHES for ours in added)
    return ((rows > 0) & (rows <= first)) | (count - last <= rows)
