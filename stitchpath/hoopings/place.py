"""Places a stage's hoopings: where the hoop goes, in which order, and what each one sews."""

from dataclasses import dataclass, replace
from itertools import pairwise
from math import floor

import numpy as np

from stitchpath.catalog.fields import smallest_field
from stitchpath.geometry.boxes import Boxes, bounds_of
from stitchpath.geometry.paths import points_at
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import GRID_MM, ROUNDING_MM
from stitchpath.hoopings.cover import Covered, find_cover
from stitchpath.hoopings.grid import holds
from stitchpath.hoopings.joins import Found, find_joins
from stitchpath.hoopings.order import order_places
from stitchpath.hoopings.places import Kind, Place, kinds_of, room_of
from stitchpath.hoopings.split import cut_line
from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Hooping, Join
from stitchpath.model.line import Line
from stitchpath.model.piece import StageTask
from stitchpath.model.project import Project
from stitchpath.units import format_length


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlacedStage:
    """A stage's hoopings.

    Attributes:
        hoopings: In the order of sewing, each with the parts of lines that it sews.
        bound: No way of placing the hoops takes fewer.
        joins: Where hoopings meet on lines.
        findings: What could not be done.
    """

    hoopings: tuple[tuple[Hooping, tuple[Line, ...]], ...] = ()
    bound: int = 0
    joins: tuple[Join, ...] = ()
    findings: tuple[Finding, ...] = ()


def place_hoopings(task: StageTask, lines: tuple[Line, ...], project: Project) -> PlacedStage:
    """Return a stage's hoopings in the order of sewing, with what each sews.

    All lines are sewn, once and within half the overlap of a join twice. If a part that must
    stay whole is larger than every field, there are no hoopings and the finding says by how
    much.
    """
    if not lines:
        return PlacedStage()
    kinds, overlap_mm = kinds_of(project), project.hoopings.overlap
    covered = find_cover(lines, kinds, room_mm=room_of(project), overlap_mm=overlap_mm)
    if covered is None:
        return PlacedStage(findings=(_too_large(task, lines, project),))
    joins = find_joins(lines, covered.chains, covered.cover, overlap_mm=overlap_mm)
    parts = _divide(lines, covered, joins, overlap_mm)
    cover = tuple(
        _settled(place, kinds, parts[number]) for number, place in enumerate(covered.cover)
    )
    ordered = order_places(cover, task.piece, project)
    return PlacedStage(
        hoopings=tuple((bare, tuple(parts[number])) for number, bare in ordered),
        bound=covered.bound,
        joins=_joins(lines, covered, joins, {place: bare.number for place, bare in ordered}),
    )


def _divide(
    lines: tuple[Line, ...], covered: Covered, joins: list[list[Found]], overlap_mm: float
) -> list[list[Line]]:
    """Return what each place sews, lines in their order."""
    parts: list[list[Line]] = [[] for _ in covered.cover]
    for line, chain, found in zip(lines, covered.chains, joins, strict=True):
        along = [join.along for join in found]
        for place, part in zip(
            chain.places, cut_line(line, along, overlap_mm=overlap_mm), strict=True
        ):
            parts[place].append(part)
    return parts


def _joins(
    lines: tuple[Line, ...],
    covered: Covered,
    joins: list[list[Found]],
    numbers: dict[int, int],
) -> tuple[Join, ...]:
    """Return where hoopings meet, told by their numbers, line by line."""
    made: list[Join] = []
    for line, chain, found in zip(lines, covered.chains, joins, strict=True):
        if not found:
            continue
        places = points_at(line.points, np.array([join.along for join in found]))
        for join, sides, (x, y) in zip(
            found, pairwise(chain.places), places.tolist(), strict=True
        ):
            one, other = sorted(numbers[place] for place in sides)
            made.append(
                Join(place=(x, y), hoopings=(one, other), is_on_crossing=join.is_on_crossing)
            )
    return tuple(made)


def _settled(place: Place, kinds: tuple[Kind, ...], parts: list[Line]) -> Place:
    """Return a place with the smallest ring that holds what is sewn there.

    Where that keeps needle points of stitch files, which are in whole tenths of a mm, they all
    have to be rounded the same way: so the centre lies a quarter of a tenth beside those.
    """
    settled = _smallest(place, kinds, bounds_of([part.points for part in parts]))
    if all(part.file_run is None for part in parts):
        return settled
    half = GRID_MM / 2
    x, y = ((floor(axis / half) + 1 / 2) * half for axis in settled.centre)
    return replace(settled, centre=(x, y))


def _smallest(place: Place, kinds: tuple[Kind, ...], bounds: Boxes) -> Place:
    """Return a place with the smallest ring that holds what is sewn there."""
    low, high = bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0)
    x, y = ((low + high) / 2).tolist()
    for kind in kinds:
        if kind.ring_mm2 >= place.kind.ring_mm2:
            return place
        for centre in (place.centre, (x, y)):
            smaller = Place(kind=kind, centre=centre)
            if holds((smaller,), np.array([[*low, *high]])):
                return smaller
    return place


def _too_large(task: StageTask, lines: tuple[Line, ...], project: Project) -> Finding:
    """Say by how much what must stay whole is larger than a field, and what would hold it."""
    part = max(_whole_parts(lines), key=lambda points: float(np.ptp(points, axis=0).max()))
    width, height = np.ptp(part, axis=0).tolist()
    unit, room_mm = project.units, project.hoopings.room
    need = f"{format_length(width, unit)} x {format_length(height, unit)}"
    lacks = [
        (max(width - kind.reach[0], height - kind.reach[1]), kind.field)
        for kind in kinds_of(project)
    ]
    over, field = min(lacks)
    have = " x ".join(format_length(side, unit) for side in field)
    text = f"a part of {need} must be sewn in one hooping, and the field of {have}"
    if over > 0:
        text += f" is too small by {format_length(over, unit)}"
    else:
        text += " holds it, but not with the overlap of a join beside it"
    if room_mm > 0:
        text += f", with {format_length(room_mm, unit)} kept clear on all sides"
    return Finding(
        code="hoop-fit",
        level=Level.ERROR,
        text=text,
        help=_larger(width, height, project, is_too_small=over > 0),
        stage=task.name,
        where=tuple(part.mean(axis=0).tolist()),
        value=over,
        limit=0.0,
    )


def _larger(width: float, height: float, project: Project, *, is_too_small: bool) -> str:
    """Say what would hold a part of a width and a height."""
    room_mm = project.hoopings.room
    spare = ROUNDING_MM + 2 * room_mm
    holder = smallest_field(width + spare, height + spare, may_turn=project.hoopings.turn)
    ways = ["use a larger field"]
    if is_too_small and holder is not None:
        ways = [f"use a field of at least {holder.name} mm"]
    if not is_too_small:
        ways.append("a smaller overlap")
    if room_mm > 0:
        ways.append("a smaller `hoopings.room`")
    return f"{' or '.join(ways)}, or make the part smaller"


def _whole_parts(lines: tuple[Line, ...]) -> list[Points]:
    return [line.points[first : last + 1] for line in lines for first, last in line.whole]
