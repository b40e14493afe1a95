"""Lines from stitch files into stitches: their own needle points, ties where the file has none.

A run that begins and ends with short stitches, or stitches on the spot, is tied already.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.design import SewnDesign
from stitchpath.model.line import Line, run_of
from stitchpath.model.plan import SewnHooping
from stitchpath.model.stitches import Op, Stitches
from stitchpath.sewing.distinct import distinct
from stitchpath.sewing.sample import Sampled
from stitchpath.sewing.tie import LOCK_STITCHES, tie_places, tied_points

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
    at, xy, op, tie = (np.concatenate(column) for column in zip(*rows, strict=True))
    return Stitches(
        xy=np.insert(points, at, xy, axis=0),
        op=np.insert(np.full(len(points), Op.STITCH, dtype=np.uint8), at, op),
        tie=np.insert(_in_ties(len(points), added=(len(first) > 0, len(last) > 0)), at, tie),
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


def _in_ties(count: int, *, added: tuple[bool, bool]) -> NDArray[np.bool_]:
    """Return which of a run's own needle points end a stitch of a tie.

    The stitch that leaves a tie may be short as well, so it counts as part of it.
    """
    rows = np.arange(count)
    first, last = (1 if is_added else LOCK_STITCHES for is_added in added)
    return ((rows > 0) & (rows <= first)) | (count - last <= rows)
