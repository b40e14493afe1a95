"""Chooses the cover of a stage: as few fields as can be, even ones where that costs nothing."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import TypeAlias

import numpy as np

from stitchpath.geometry.boxes import Boxes
from stitchpath.hoopings.blocks import block_cover
from stitchpath.hoopings.bound import (
    Spots,
    counting_bound,
    find_spots,
    spots_along,
    step_of,
    thinned,
)
from stitchpath.hoopings.grid import even_grid
from stitchpath.hoopings.needs import Needs, find_needs, fits_one
from stitchpath.hoopings.places import Cover, Kind
from stitchpath.hoopings.programme import Solved, find_sets, solve
from stitchpath.hoopings.rows import row_cover
from stitchpath.hoopings.split import Chain, divide_lines
from stitchpath.hoopings.weights import weighed_bound
from stitchpath.model.line import Line

MOST_EXACT = 20
"""Up to so many fields the fewest are looked for by an integer programme."""
MOST_BOUNDED = 60
"""Up to so many two blocks are tried, and a bound by weights where counting says too little."""
MOST_WEIGHED = 750
"""Spots along lines that get weights at the most."""
SHARES_WEIGHED = (2, 3, 5, 9)
"""Spots to a field's smaller side, in each set that may get weights."""
NEAR_SHARE = 0.1
"""A bound is near enough when so much more than it is not less than the fields found."""
MOST_BOXES = 400
"""So many boxes a programme is asked about at the most, but for weights along lines."""

_Chained: TypeAlias = tuple[Cover, list[Chain]]
"""A cover, and which of its places sew each line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Covered:
    """A cover with what it sews, and how good it is.

    Attributes:
        cover: Where fields lie; each of them sews something.
        chains: Which places sew each line.
        bound: No cover has fewer.
    """

    cover: Cover
    chains: list[Chain]
    bound: int


def find_cover(
    lines: tuple[Line, ...], kinds: tuple[Kind, ...], *, room_mm: float, overlap_mm: float
) -> Covered | None:
    """Return the cover of a stage's lines by fewest fields that could be found.

    Even grids are tried first, then rows and columns of any kinds. Where neither is as good as
    the bound, two blocks of them are tried if the fields are not too many, and an integer
    programme if they are few. Of covers with as few fields the first is taken.

    Args:
        lines: A stage's lines; at least one.
        kinds: What fields there are; each is larger than the room.
        room_mm: By how much fields overlap at the least.
        overlap_mm: What both sides of a join sew.

    Returns:
        The cover, or None where something that must stay whole fits no field.

    Cost: O(lines x hoopings + segments) but for the programme, which has a limit.
    """
    needs = find_needs(lines, kinds, room_mm=room_mm)
    if not all(fits_one(box, kinds) for box in needs.wholes):
        return None
    spots = find_spots(needs.loose, needs, kinds)
    bound = counting_bound(spots, kinds)
    best = _first_workable(lines, _simple_covers(needs, kinds, room_mm), overlap_mm)
    if best and bound < len(best[0]) <= MOST_BOUNDED:
        block = block_cover(needs, kinds, most=len(best[0]) - 1)
        best = _fewer(best, _first_workable(lines, [block] if block else [], overlap_mm))
    fewest = len(best[0]) if best else MOST_EXACT + 1
    if bound < fewest <= MOST_EXACT + 1:
        solved, bound = _by_programme(needs, spots, kinds, bound, fewest)
        best = _fewer(best, _first_workable(lines, solved, overlap_mm))
    if best is None:
        return None
    cover, chains = best
    if len(cover) <= MOST_BOUNDED:
        bound = _weighed(needs, spots, kinds, (bound, len(cover)))
    return Covered(cover=cover, chains=chains, bound=min(bound, len(cover)))


def _fewer(best: _Chained | None, other: _Chained | None) -> _Chained | None:
    """Return the one of two with fewer places, the first of equals."""
    if best is None or (other is not None and len(other[0]) < len(best[0])):
        return other
    return best


def _weighed(
    needs: Needs,
    spots: Spots,
    kinds: tuple[Kind, ...],
    known: tuple[int, int],
) -> int:
    """Return a better bound, by weights, unless the known one is near the fewest as it is."""
    bound, fewest = known
    wanted = ceil(fewest / (1 + NEAR_SHARE))
    if wanted <= bound:
        return bound
    some = _weighable(needs.loose, needs, spots, kinds)
    return weighed_bound(some, kinds, known=bound, wanted=wanted)


def _weighable(
    lines: tuple[Line, ...], needs: Needs, spots: Spots, kinds: tuple[Kind, ...]
) -> Iterator[Boxes]:
    """Yield spots to weigh: those of lattices, which suit dense lines, then along lines."""
    yield _some_spots(spots)
    for share in SHARES_WEIGHED:
        step_mm = step_of(share, needs, kinds)
        some = thinned(lines, step_mm, most=MOST_WEIGHED)
        yield spots_along(some, needs, step_mm)
        if len(some) < len(lines):
            break


def _simple_covers(needs: Needs, kinds: tuple[Kind, ...], room_mm: float) -> list[Cover]:
    """Return grids, then rows and columns, those of fewest fields and smallest rings first."""
    covers = [even_grid(needs, kind, kinds, room_mm=room_mm) for kind in kinds]
    most = min(map(len, covers))
    rows = [
        row_cover(needs, kinds, room_mm=room_mm, most=most, down=down) for down in (True, False)
    ]
    return sorted((*covers, *(cover for cover in rows if cover)), key=_cost)


def _cost(cover: Cover) -> tuple[int, float]:
    return len(cover), round(sum(place.kind.ring_mm2 for place in cover))


def _first_workable(
    lines: tuple[Line, ...], covers: list[Cover], overlap_mm: float
) -> _Chained | None:
    """Return the first cover that reaches all lines, without the places that sew nothing."""
    for cover in covers:
        chains = divide_lines(lines, cover, overlap_mm=overlap_mm)
        if chains is not None:
            return _without_idle(cover, chains)
    return None


def _without_idle(cover: Cover, chains: list[Chain]) -> _Chained:
    used = sorted({place for chain in chains for place in chain.places})
    number = {place: at for at, place in enumerate(used)}
    renumbered = [
        Chain(places=tuple(number[place] for place in chain.places), windows=chain.windows)
        for chain in chains
    ]
    return tuple(cover[place] for place in used), renumbered


def _by_programme(
    needs: Needs, spots: Spots, kinds: tuple[Kind, ...], bound: int, fewest: int
) -> tuple[list[Cover], int]:
    """Return covers that a programme found, if any has fewer fields, and a better bound.

    First some spots are held: that bounds the number from below, and if it is no smaller than
    what is known already, there is nothing to look for. Otherwise all pieces are held.
    """
    tight = _solved(_some_spots(spots), kinds)
    bound = max(bound, tight.bound)
    if bound >= fewest:
        return [], bound
    wide = _solved(np.concatenate([needs.pieces, needs.wholes]), kinds)
    covers = [cover for cover in (tight.cover, wide.cover) if cover and len(cover) < fewest]
    return sorted(covers, key=_cost), bound


def _some_spots(spots: Spots) -> Boxes:
    """Return the spots of lattices, coarse ones first, as many as are taken."""
    chosen = spots.lattices[:1] or spots.along[:1]
    for lattice in spots.lattices[1:]:
        if sum(map(len, chosen)) + len(lattice) <= MOST_BOXES:
            chosen = (*chosen, lattice)
    return np.unique(np.concatenate(chosen), axis=0)


def _solved(boxes: Boxes, kinds: tuple[Kind, ...]) -> Solved:
    sets = find_sets(boxes, kinds) if len(boxes) <= MOST_BOXES else None
    return Solved(cover=None, bound=0) if sets is None else solve(boxes, sets)
