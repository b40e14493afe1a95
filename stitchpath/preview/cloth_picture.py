"""The picture of a cloth or batting with its pieces, to cut by."""

from typing import Final

from stitchpath.model.estimate import BattingToBuy, Cloth, LaidPiece
from stitchpath.model.plan import Plan
from stitchpath.preview.colours import CLOTH, INK, PAGE
from stitchpath.preview.labels import Box, text_width, wrapped
from stitchpath.preview.look import LEAST_TEXT_MM, TEXT_SHARE, Look
from stitchpath.preview.marks import box
from stitchpath.preview.sheet import Caption, begin, finish, lay_out
from stitchpath.preview.svg import (
    Drawing,
    Layer,
    Pen,
    add_layer,
    add_lines,
    add_texts,
    group,
    tidy,
    written,
)
from stitchpath.units import format_cloth, format_length, format_length_up

_LEADING: Final = 1.3
_HAIR: Final = 0.08
"""Width of a line, as a share of the text's height."""
_FEWEST_LETTERS: Final = 8.0
"""A piece less wide than so many text heights is written on downwards."""
_OF_STRIP: Final = 0.65
"""Height of the text on a strip, as a share of the strip's."""


def draw_cloth(plan: Plan, cloth: Cloth) -> str:
    """Return a cloth with its pieces as an SVG document at true scale.

    The selvedges are left and right, the cut end at the top; all that is bought is shown.
    """
    unit = plan.project.units
    wide, bought = format_length(cloth.usable_width, unit), format_cloth(cloth.buy, unit)
    facts = [
        f"{cloth.name} cloth, {wide} between the selvedges: buy {bought}",
        "selvedges left and right, cut end at the top; sizes are cut sizes",
    ]
    if plan.project.fabric.directional:
        facts.append("the print's up is at the top, and so is each piece's but the binding's")
    return _draw(plan, (cloth.usable_width, cloth.buy), cloth.pieces, facts)


def draw_batting(plan: Plan, batting: BattingToBuy) -> str:
    """Return a ready-cut batting with its pieces likewise."""
    facts = [f"batting, a ready-cut {batting.name}; sizes are cut sizes"]
    return _draw(plan, (batting.width, batting.length), batting.pieces, facts)


def _draw(
    plan: Plan, size: tuple[float, float], pieces: tuple[LaidPiece, ...], facts: list[str]
) -> str:
    text = max(TEXT_SHARE * max(size), LEAST_TEXT_MM)
    whole: Box = (0.0, 0.0, *size)
    caption = Caption(title=plan.project.name, facts=tuple(facts))
    sheet = lay_out(whole, caption, [], text)
    drawing = begin(sheet)
    ground = add_layer(drawing, "cloth", "the cloth")
    pen = Pen(fill=CLOTH, stroke=INK, width=_HAIR * text, dash=(text, text / 2))
    add_lines(ground, box(*whole), pen, closed=True)
    _add_pieces(drawing, pieces, text, plan)
    look = Look(text=text, mark=text, sign=text, band=text, dot=text, thread_colour=INK)
    finish(drawing, sheet, [], look, unit=plan.project.units)
    return written(drawing)


def _add_pieces(
    drawing: Drawing, pieces: tuple[LaidPiece, ...], text: float, plan: Plan
) -> None:
    layer = add_layer(drawing, "pieces", "pieces to cut")
    pen = Pen(fill=PAGE, stroke=INK, width=2 * _HAIR * text)
    for piece in pieces:
        sides = box(piece.x, piece.y, piece.x + piece.width, piece.y + piece.length)
        add_lines(layer, sides, pen, closed=True)
        _add_label(layer, piece, text, plan)


def _add_label(layer: Layer, piece: LaidPiece, text: float, plan: Plan) -> None:
    """Write a piece's name and size into it, downwards where it is narrow; none that is cut."""
    narrow = piece.width < min(_FEWEST_LETTERS * text, piece.length)
    wide, high = (piece.length, piece.width) if narrow else (piece.width, piece.length)
    size = min(text, _OF_STRIP * high)
    lines = _words(piece, plan, one_line=high < 2 * _LEADING * text)
    lines = [part for line in lines for part in wrapped(line, size=size, width=wide - size)]
    tall = _LEADING * size * len(lines)
    if high < tall or any(wide - size < text_width(line, size) for line in lines):
        return
    first = min(_LEADING * size, (high - tall) / 2 + size)
    turn = f"translate({tidy(piece.x + piece.width)},{tidy(piece.y)}) rotate(90)"
    stay = f"translate({tidy(piece.x)},{tidy(piece.y)})"
    label = group(transform=turn if narrow else stay)
    rows = [(line, (size / 2, first + row * _LEADING * size)) for row, line in enumerate(lines)]
    add_texts(label, rows, size, fill=INK)
    layer.add(label)


def _words(piece: LaidPiece, plan: Plan, *, one_line: bool) -> list[str]:
    """Return name and size; a size is never parted but at its x."""
    width, length = (
        format_length_up(side, plan.project.units).replace(" ", "\u00a0")
        for side in (piece.width, piece.length)
    )
    size = f"{width} x {length}"
    return [f"{piece.what}, {size}"] if one_line else [piece.what, size]
