"""Chooses the cover of a stage: as few fields as can be, even ones where that costs nothing."""

from dataclasses import dataclass
from math import ceil

import numpy as np

from stitchpath.geometry.boxes import Boxes
from stitchpath.hoopings.bound import (
    Spots,
    counting_bound,
    find_spots,
    spots_along,
    step_for,
)
from stitchpath.hoopings.grid import even_grid
from stitchpath.hoopings.needs import Needs, find_needs, fits_one
from stitchpath.hoopings.places import Cover, Kind
from stitchpath.hoopings.programme import Solved, find_sets, solve
from stitchpath.hoopings.rows import row_cover
from stitchpath.hoopings.split import Chain, divide_lines
from stitchpath.hoopings.weights import told_by, weigh
from stitchpath.model.line import Line

MOST_EXACT = 20
"""Up to so many fields the fewest are looked for by an integer programme."""
MOST_BOUNDED = 40
"""Up to so many a bound by weights is asked for where counting says too little."""
MOST_WEIGHED = (450, 750)
"""Spots that get weights at the most: first, and where those do not tell enough."""
NEAR_SHARE = 0.1
"""A bound is near enough when so much more than it is not less than the fields found."""
MOST_BOXES = 400
"""So many boxes the programme is asked to hold at the most."""


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

    Even grids are tried first, then rows and columns of any kinds, and where neither is as good
    as the bound and the fields are few, an integer programme. Of covers with as few fields the
    first is taken.

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
    covers = _simple_covers(needs, kinds, room_mm)
    best = _first_workable(lines, covers, overlap_mm)
    fewest = len(best[0]) if best else MOST_EXACT + 1
    if bound < fewest <= MOST_EXACT + 1:
        solved, bound = _by_programme(needs, spots, kinds, bound, fewest)
        found = _first_workable(lines, solved, overlap_mm)
        if found and (best is None or len(found[0]) < len(best[0])):
            best = found
    if best is None:
        return None
    cover, chains = best
    if len(cover) <= MOST_BOUNDED:
        bound = _weighed(needs, kinds, bound, len(cover))
    return Covered(cover=cover, chains=chains, bound=min(bound, len(cover)))


def _weighed(needs: Needs, kinds: tuple[Kind, ...], bound: int, fewest: int) -> int:
    """Return a better bound, by weights, unless it is near enough as it is."""
    wanted = ceil(fewest / (1 + NEAR_SHARE))
    for most in MOST_WEIGHED:
        if wanted <= bound:
            break
        step_mm = step_for(needs.loose, needs, kinds, most=most)
        spots = spots_along(needs.loose, needs, step_mm)
        weights = weigh(spots, kinds, wanted=wanted, enough=fewest)
        bound = max(bound, told_by(weights))
    return bound


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
) -> tuple[Cover, list[Chain]] | None:
    """Return the first cover that reaches all lines, without the places that sew nothing."""
    for cover in covers:
        chains = divide_lines(lines, cover, overlap_mm=overlap_mm)
        if chains is not None:
            return _without_idle(cover, chains)
    return None


def _without_idle(cover: Cover, chains: list[Chain]) -> tuple[Cover, list[Chain]]:
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
    """Return as many spots as a programme takes, coarse lattices first."""
    chosen = spots.lattices[:1] or spots.along[:1]
    for lattice in spots.lattices[1:]:
        if sum(map(len, chosen)) + len(lattice) <= MOST_BOXES:
            chosen = (*chosen, lattice)
    return np.unique(np.concatenate(chosen), axis=0)


def _solved(boxes: Boxes, kinds: tuple[Kind, ...]) -> Solved:
    sets = find_sets(boxes, kinds) if len(boxes) <= MOST_BOXES else None
    return Solved(cover=None, bound=0) if sets is None else solve(boxes, sets)
