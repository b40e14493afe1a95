"""Where a hooping's lines meet those of its neighbours, ready to be told and drawn."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from typing import Final

import numpy as np

from stitchpath.model.plan import Plan, Stage
from stitchpath.preview import strokes
from stitchpath.preview.colours import HOOP
from stitchpath.preview.join_data import misses_of
from stitchpath.preview.labels import Room, place_label, widened
from stitchpath.preview.look import Look
from stitchpath.preview.placement_layers import Named
from stitchpath.preview.sewing_layers import NUMBER_SHARE
from stitchpath.preview.svg import Drawing, add_layer
from stitchpath.preview.tags import Tag, draw_tags, tag_extent

_APART: Final = 0.7
"""What stays clear round a neighbour's number, as a share of its height."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """All joins of a hooping with one of its neighbours.

    Attributes:
        other: The neighbour's number.
        places: Where they meet, on the piece, mm.
        on_crossings: How many of these lie on crossings of lines.
        miss_mm: 95 of 100 miss by less at the worst of them; None where nobody worked it out.
    """

    other: int
    places: tuple[tuple[float, float], ...]
    on_crossings: int
    miss_mm: float | None


def meetings_of(plan: Plan, stage: Stage, number: int) -> tuple[Meeting, ...]:
    """Return whom a hooping meets, by their numbers.

    Args:
        plan: Says whether hoops are lined up with marks on the piece or with one another.
        stage: The hooping's stage.
        number: The hooping's.
    """
    misses = misses_of(plan, stage)
    own = [
        (sum(stage.joins[at].hoopings) - number, stage.joins[at], misses[at])
        for at in _joins_of(stage).get(number, ())
    ]
    own.sort(key=lambda one: one[0])
    meetings = []
    for other, group in groupby(own, key=lambda one: one[0]):
        joins = list(group)
        told = [miss for _, _, miss in joins if miss is not None]
        meetings.append(
            Meeting(
                other=other,
                places=tuple(join.place for _, join, _ in joins),
                on_crossings=sum(join.is_on_crossing for _, join, _ in joins),
                miss_mm=max(told, default=None),
            )
        )
    return tuple(meetings)


@lru_cache(maxsize=1)
def _joins_of(stage: Stage) -> dict[int, list[int]]:
    """Return by a hooping's number which of a stage's joins are its own.

    Kept, since it is asked for each hooping: to look through all joins for each of them would
    take time that grows with the square of the quilt. Of one stage alone, since what is kept
    keeps the stage with all its stitches: stages are told one after another.
    """
    found: dict[int, list[int]] = defaultdict(list)
    for at, join in enumerate(stage.joins):
        for number in join.hoopings:
            found[number].append(at)
    return found


def draw_joins(
    drawing: Drawing, places: Sequence[tuple[float, float]], look: Look, *, overlap_mm: float
) -> None:
    """Add where hoopings meet; no layer where none do."""
    if places:
        layer = add_layer(drawing, "joins", "where lines of two hoopings meet")
        strokes.draw_joins(layer, np.array(places), look, overlap_mm=overlap_mm)


def draw_neighbours(drawing: Drawing, joins: Sequence[Named], look: Look, room: Room) -> None:
    """Add the neighbour's number beside each join that has room for it.

    Runs' numbers stay clear of it: two numbers side by side would be read as one.
    """
    if not joins:
        return
    layer = add_layer(drawing, "join-numbers", "numbers of the hoopings that are met")
    size, tags = NUMBER_SHARE * look.sign, []
    for name, at in joins:
        where = place_label(at, tag_extent(name, size), room, gap=0.9 * look.mark, must=False)
        if where is not None:
            room.take(widened(where, _APART * size))
            tags.append(Tag(words=name, where=where))
    draw_tags(layer, tags, size=size, colour=HOOP)
