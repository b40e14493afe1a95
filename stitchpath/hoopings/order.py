"""In which order hoopings are sewn, and which way round the piece lies for each.

What lies right of the needle has to go through the throat. So each hooping is sewn with the
nearer of two opposite sides to the right, unless the piece lies flat in the throat as it is:
then at most half of it is ever rolled up there. All hoopings with one side to the right are
sewn in one go, then the piece is turned by 180 degrees. Within that they go from the middle
outwards, or row by row along the roll, the roll getting thinner. Sources: rows from the centre
row outwards, half a turn in between so that no more than half is in the throat, a quilters'
page, read once.
"""

from dataclasses import dataclass
from math import hypot, pi, sqrt
from typing import Final

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.hoopings.places import Cover, Place
from stitchpath.model.hooping import Hooping, Overhang, Side, Throat
from stitchpath.model.piece import Piece
from stitchpath.model.project import Project

LOOSE: Final = 1.3
"""How much thicker a roll made by hand is than a tight one. Common practice, no source."""

_SIDES: Final[dict[float, Side]] = {0.0: "right", 90.0: "bottom", 180.0: "left", 270.0: "top"}
"""Which side of the piece lies to the right, by the field's turn on the piece."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Step:
    """A place, its number in the cover, the field's turn, and what is right of the needle."""

    place: Place
    number: int
    turn_deg: float
    width: float


def order_places(cover: Cover, piece: Piece, project: Project) -> list[tuple[int, Hooping]]:
    """Return the places of a cover in the order of sewing, each as a hooping without marks.

    Args:
        cover: Where fields lie; at least one place.
        piece: What lies under the needle.
        project: Its machine's throat, its batting, and the order that was chosen.
    """
    flat_mm = project.machine.throat[0]
    steps = [_step(place, number, piece, flat_mm) for number, place in enumerate(cover)]
    halves: dict[float, list[_Step]] = {}
    for step in steps:
        halves.setdefault(step.turn_deg, []).append(step)
    outwards = {turn: _outwards(half, piece) for turn, half in halves.items()}
    turns = sorted(outwards, key=lambda turn: (_away(outwards[turn][0], piece), turn))
    by_rows = project.hoopings.order == "rows"
    ordered = [
        step for turn in turns for step in (_rows(halves[turn]) if by_rows else outwards[turn])
    ]
    return [
        (step.number, _hooping(step, number, piece, project))
        for number, step in enumerate(ordered, start=1)
    ]


def roll_mm(width_mm: float, thickness_mm: float) -> float:
    """Return the diameter of a tight roll: the area of its end is that of the sheet's edge.

    Example:
        >>> round(roll_mm(762, 3))
        54
    """
    return sqrt(4 * width_mm * thickness_mm / pi)


def overhang_of(place: Place, piece: Piece) -> Overhang:
    """Return how far the ring of a hoop at a place reaches past a piece's finished edges."""
    width, height = place.kind.ring if place.kind.turn_deg == 0 else place.kind.ring[::-1]
    x, y = place.centre
    return Overhang(
        left=max(0.0, width / 2 - x),
        top=max(0.0, height / 2 - y),
        right=max(0.0, x + width / 2 - piece.width),
        bottom=max(0.0, y + height / 2 - piece.length),
    )


def _step(place: Place, number: int, piece: Piece, flat_mm: float) -> _Step:
    """Return a place with the piece turned so that the smaller part of it is in the throat."""
    turn_deg = place.kind.turn_deg
    ahead, behind = (_width(place, turn, piece) for turn in (turn_deg, turn_deg + 180))
    if ahead > max(flat_mm, behind + SAME_POINT_MM):
        turn_deg, ahead = turn_deg + 180, behind
    return _Step(place=place, number=number, turn_deg=turn_deg, width=ahead)


def _width(place: Place, turn_deg: float, piece: Piece) -> float:
    """Return how much of a piece lies right of a place's centre at a turn, mm."""
    (x, y), side = place.centre, _SIDES[turn_deg]
    ways = {"right": piece.width - x, "bottom": piece.length - y, "left": x, "top": y}
    return max(0.0, ways[side])


def _outwards(half: list[_Step], piece: Piece) -> list[_Step]:
    return sorted(half, key=lambda step: (_away(step, piece), step.place.centre[::-1]))


def _away(step: _Step, piece: Piece) -> int:
    (x, y), (middle_x, middle_y) = step.place.centre, piece.centre
    return round(hypot(x - middle_x, y - middle_y) / SAME_POINT_MM)


def _rows(half: list[_Step]) -> list[_Step]:
    """Return hoopings row by row along the roll, to and fro, the thickest roll first.

    A row's hoopings have about the same roll: within half a field's width of the first.
    """
    rows: list[list[_Step]] = []
    for step in sorted(
        half, key=lambda step: (-round(step.width / SAME_POINT_MM), step.number)
    ):
        reach = step.place.kind.field[0] / 2
        if not rows or rows[-1][0].width - step.width > reach:
            rows.append([])
        rows[-1].append(step)
    ordered: list[_Step] = []
    for at, row in enumerate(rows):
        along = sorted(row, key=_along_roll)
        ordered += along[::-1] if at % 2 else along
    return ordered


def _along_roll(step: _Step) -> tuple[float, int]:
    """Return how far towards the maker a place lies, as the piece lies under the needle."""
    x, y = step.place.centre
    ways = {0.0: y, 90.0: -x, 180.0: -y, 270.0: x}
    return ways[step.turn_deg], step.number


def _hooping(step: _Step, number: int, piece: Piece, project: Project) -> Hooping:
    kind = step.place.kind
    return Hooping(
        number=number,
        field=kind.field,
        centre=step.place.centre,
        turn_deg=step.turn_deg,
        ring=kind.ring,
        overhang=overhang_of(step.place, piece),
        throat=_throat(step, project),
    )


def _throat(step: _Step, project: Project) -> Throat:
    """Return what is in the throat: flat if it fits so, else rolled up to the ring."""
    width_mm, height_mm = project.machine.throat
    half_ring = step.place.kind.ring[0] / 2
    roll = 0.0
    if step.width > max(width_mm, half_ring):
        roll = LOOSE * roll_mm(step.width - half_ring, project.batting.thickness)
    return Throat(
        side=_SIDES[step.turn_deg],
        width=step.width,
        roll=roll,
        fits=roll <= height_mm and half_ring + roll <= width_mm,
    )
