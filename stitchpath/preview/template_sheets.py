"""True-scale sheets of one hooping: its lines as they lie in the hoop."""

from dataclasses import dataclass
from functools import partial
from typing import Final

import numpy as np

from stitchpath.catalog.papers import Paper
from stitchpath.geometry.points import Points
from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import SewnHooping, Stage
from stitchpath.preview.letters import fitted
from stitchpath.preview.pdf import Anchor, Ink, Pages, Place, text_width
from stitchpath.preview.polylines import Polylines, clipped_all, clipped_each, simplified
from stitchpath.preview.tiles import MARGIN_MM, OVERLAP_MM, Page, Tile, tile

LINE: Final = Ink(width=0.3)
SIGN: Final = Ink(width=0.5)
FAINT: Final = Ink(width=0.2, grey=0.5, dash=(2.0, 1.5))
EDGE: Final = Ink(width=0.4, dash=(8.0, 2.0))
CONTROL: Final = Ink(width=0.3)
CROSS_MM: Final = 6.0
"""From the middle of a mark's cross to the end of its arms."""
CONTROL_MM: Final = 100.0
INCHES_MM: Final = 101.6
"""4 in: the other thing a maker's ruler has."""
_ROUND_MM: Final = 4.0
"""Shown round the field, so that its edge is seen whole."""
_SMALL: Final = 3.0
_LARGE: Final = 4.2
_NUMBER: Final = 26.0
_PALE: Final = 0.85
_ALONG: Final = (0.2, 0.8)
"""Where along an overlap its crosses lie."""
_FLAT_MM: Final = 0.02
"""How far a drawn line may be off: a fifth of what a sheet is measured to."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Drawing:
    """One hooping as its sheets show it, in the field's frame.

    Attributes:
        stage: The hooping's stage.
        hooping: The hooping.
        lines: What it sews.
        signs: The field's edge and the crosses of marks.
        faint: The field's middle lines.
        edges: The piece's finished edge, and that of a pocket on it, each with its name.
    """

    stage: Stage
    hooping: Hooping
    lines: Polylines
    signs: Polylines
    faint: Polylines
    edges: tuple[tuple[str, Polylines], ...]


def draw_sheets(pages: Pages, name: str, stage: Stage, sewn: SewnHooping, paper: Paper) -> None:
    """Add the sheets of a hooping; those on which nothing lies are left out.

    Args:
        pages: Where they are added.
        name: The project's.
        stage: The hooping's stage.
        sewn: The hooping.
        paper: What they are printed on.
    """
    hooping = sewn.hooping
    drawing = _drawing_of(stage, sewn)
    width, height = (side / 2 + _ROUND_MM for side in hooping.field)
    page, tiles = tile((-width, -height, width, height), paper)
    kinds = (drawing.faint, drawing.signs, drawing.lines)
    seen = zip(
        *(clipped_each(lines, [one.box for one in tiles]) for lines in kinds), strict=True
    )
    used = [
        (one, parts)
        for one, parts in zip(tiles, seen, strict=True)
        if len(parts[-1]) or _marks_in(hooping, one)
    ]
    for number, (one, parts) in enumerate(used, start=1):
        pages.begin(page.width, page.height)
        _draw_part(pages, page, one, drawing, parts)
        same = ("joins", hooping.field, one.column, one.row)
        pages.again(same, partial(_draw_joins, pages, page, one, tiles))
        head = f"stage {stage.name}, hooping {hooping.number}, sheet {number} of {len(used)}"
        if len(used) > 1:
            head += f" (row {one.row + 1}, column {one.column + 1})"
        draw_frame(pages, page, name, head)


def draw_frame(pages: Pages, page: Page, name: str, head: str) -> None:
    """Add what every sheet has: what it is, and a line to measure."""
    top = MARGIN_MM + _LARGE
    right = page.width - MARGIN_MM
    pages.text((right, top), head, _LARGE, anchor="end", bold=True)
    room = right - MARGIN_MM - text_width(head, _LARGE, bold=True) - _LARGE
    short = fitted(name, _LARGE, room)
    pages.again(("name", short), lambda: pages.text((MARGIN_MM, top), short, _LARGE))
    pages.again("control", lambda: _draw_control(pages, page))


def _draw_control(pages: Pages, page: Page) -> None:
    """Add a line to measure."""
    y = page.height - MARGIN_MM - 2
    x, right = MARGIN_MM, page.width - MARGIN_MM
    ends = [[x, x + CONTROL_MM], [x, x], [x + CONTROL_MM] * 2, [x + INCHES_MM] * 2]
    heights = [[y, y], [y - 2, y + 2], [y - 2, y + 2], [y - 1, y + 1]]
    pages.lines(
        [np.column_stack([across, along]) for across, along in zip(ends, heights, strict=True)],
        CONTROL,
    )
    words = "100 mm to the tall mark, 4 in to the short: print at 100 %"
    pages.text((x + INCHES_MM + 2, y), fitted(words, _SMALL, right - x - INCHES_MM - 2), _SMALL)


def cross(at: Place, arm: float) -> list[Points]:
    """Return the two lines of a cross."""
    middle = np.array(at)
    return [np.array([middle - way, middle + way]) for way in arm * np.eye(2)]


def _drawing_of(stage: Stage, sewn: SewnHooping) -> _Drawing:
    hooping = sewn.hooping
    parts = [line.points for run in sewn.runs for line in run.lines if not line.again]
    half = np.array(hooping.field) / 2
    ring = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1], [-1, -1]]) * half
    crosses = [arm for mark in hooping.marks for arm in cross(mark.field, CROSS_MM)]
    edges = [(stage.piece.name, stage.piece.outline)]
    if stage.piece.shadow is not None:
        edges.append(("pocket", stage.piece.shadow))
    return _Drawing(
        stage=stage,
        hooping=hooping,
        lines=simplified(Polylines.of(parts).placed(hooping.to_field), tolerance_mm=_FLAT_MM),
        signs=Polylines.of([ring, *crosses]),
        faint=Polylines.of([np.array([-way, way]) for way in np.diag(half)]),
        edges=tuple((name, Polylines.of([hooping.to_field(edge)])) for name, edge in edges),
    )


def _draw_part(
    pages: Pages, page: Page, one: Tile, drawing: _Drawing, seen: tuple[Polylines, ...]
) -> None:
    """Add a sheet's part of a hooping: what is seen there of its faint lines, signs, lines."""
    x0, y0, x1, y1 = one.box
    shift = (page.room[0] - x0, page.room[1] - y0)
    at = ((x0 + x1) / 2 + shift[0], (y0 + y1) / 2 + shift[1] + _NUMBER / 3)
    number = f"{drawing.hooping.number}"
    room = (x0 + shift[0], y0 + shift[1], x1 + shift[0], y1 + shift[1])
    pages.text(at, number, _NUMBER, anchor="middle", bold=True, grey=_PALE)
    faint, signs, sewn = seen
    pages.lines(faint, FAINT, shift=shift)
    pages.lines(signs, SIGN, shift=shift)
    edges = [edge.placed(lambda at: at + shift) for _, edge in drawing.edges]
    for (name, _), edge in zip(drawing.edges, clipped_all(edges, room), strict=True):
        _draw_edge(pages, name, edge)
    pages.lines(sewn, LINE, shift=shift)
    for mark in drawing.hooping.marks:
        if _is_in(one, mark.field):
            across, along = _beside(mark.field, one)
            pages.text_apart(
                (mark.field[0] + across + shift[0], mark.field[1] + along + shift[1]),
                mark.name,
                1.3 * _LARGE,
                anchor="start" if across > 0 else "end",
                bold=True,
            )
    hooping, piece = drawing.hooping, drawing.stage.piece.name
    same = ("ways", hooping.field, hooping.turn_deg, piece, one.column, one.row)
    pages.again(same, partial(_draw_ways, pages, one, drawing, shift))


def _draw_edge(pages: Pages, name: str, edge: Polylines) -> None:
    """Draw what is seen of an edge, and write beside its longest stretch what it is."""
    if not len(edge):
        return
    pages.lines(edge, EDGE)
    steps = np.concatenate([np.diff(part, axis=0) for part in edge])
    longest = np.argmax(np.hypot(*steps.T))
    x, y = (np.concatenate([part[:-1] for part in edge]) + 0.7 * steps)[longest].tolist()
    words, beside = f"edge of the {name}", 1.0
    anchor: Anchor = "start"
    if x > MARGIN_MM + text_width(words, _SMALL):
        anchor, beside = "end", -1.0
    pages.text_apart((x + beside, y - 1), words, _SMALL, anchor=anchor)


def _beside(at: Place, one: Tile) -> Place:
    """Return where a mark's name stands from it: towards the middle of the sheet."""
    middle_x = (one.box[0] + one.box[2]) / 2
    middle_y = (one.box[1] + one.box[3]) / 2
    across = 1.5 if at[0] < middle_x else -1.5
    return across, _LARGE + 2.0 if at[1] < middle_y else -2.0


def _draw_ways(pages: Pages, one: Tile, drawing: _Drawing, shift: Place) -> None:
    """Show the top of the field and the way to the top of the piece."""
    hooping, top = drawing.hooping, -drawing.hooping.field[1] / 2
    if _is_in(one, (0.0, top + 6)):
        head = np.array([[0.0, top + 1.5], [3.0, top + 8.0], [-3.0, top + 8.0]])
        pages.triangle(head + shift)
        pages.text_apart((4.5 + shift[0], top + 7 + shift[1]), "top of the field", _SMALL)
    up = hooping.to_field(np.array([[0.0, -1.0], [0.0, 0.0]]))
    way = up[0] - up[1]
    at = np.array([12.0, 12.0])
    if _is_in(one, (12.0, 12.0)):
        side = np.array([-way[1], way[0]])
        tip, foot = at + 5 * way, at - 5 * way
        pages.lines([np.array([foot, tip])], LINE, shift=shift)
        pages.triangle(np.array([tip, tip - 3 * way + side, tip - 3 * way - side]) + shift)
        words = f"to the top of the {drawing.stage.piece.name}"
        pages.text_apart((at[0] + 7 + shift[0], at[1] + 1 + shift[1]), words, _SMALL)


def _draw_joins(pages: Pages, page: Page, one: Tile, tiles: tuple[Tile, ...]) -> None:
    """Mark what a sheet shares with its neighbours: a line to lay on theirs, two crosses."""
    x0, y0, x1, y1 = page.room
    x1, y1 = x0 + one.box[2] - one.box[0], y0 + one.box[3] - one.box[1]
    half = OVERLAP_MM / 2
    sides = {
        (-1, 0): ((x0 + half, y0), (x0 + half, y1)),
        (1, 0): ((x1 - half, y0), (x1 - half, y1)),
        (0, -1): ((x0, y0 + half), (x1, y0 + half)),
        (0, 1): ((x0, y1 - half), (x1, y1 - half)),
    }
    there = {(other.column - one.column, other.row - one.row): other for other in tiles}
    ends = {way: np.array(sides[way]) for way in sides if way in there}
    if not ends:
        return
    pages.lines(ends.values(), FAINT)
    middles = [
        start + share * (end - start) for start, end in ends.values() for share in _ALONG
    ]
    pages.lines([arm for at in middles for arm in cross((at[0], at[1]), 3)], CONTROL)
    for way, (start, end) in ends.items():
        x, y = (start + 0.35 * (end - start)).tolist()
        words = f"row {there[way].row + 1}, column {there[way].column + 1}"
        pages.text_apart((x + 1, y - 1), words, _SMALL, grey=FAINT.grey)


def _marks_in(hooping: Hooping, one: Tile) -> bool:
    return any(_is_in(one, mark.field) for mark in hooping.marks)


def _is_in(one: Tile, at: Place) -> bool:
    x0, y0, x1, y1 = one.box
    return x0 <= at[0] <= x1 and y0 <= at[1] <= y1
