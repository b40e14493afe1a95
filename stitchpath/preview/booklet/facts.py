"""What the booklet says of hoopings and threads, as short texts."""

from math import cos, radians, sin

from stitchpath.model.hooping import Hooping
from stitchpath.model.piece import Piece
from stitchpath.model.plan import Stage
from stitchpath.preview.words import past_edges, size, turned_by
from stitchpath.units import Unit, format_length

_HOLD = "float it there on stabiliser, or baste strips to it"


def hooping_id(stage: Stage, hooping: Hooping) -> str:
    """Return the name under which a hooping's page is found in the booklet."""
    return f"{stage.name}-{hooping.number}"


def throat_side(hooping: Hooping, piece: Piece, unit: Unit) -> str:
    """Return which side of the piece lies to the right of the needle, and how much of it.

    The machine's body stands to the right of the needle, so whatever lies there has to go
    through the throat. Measured from the field's centre to the piece's finished edge.

    Example:
        >>> import numpy as np
        >>> rug = Piece(name="quilt", width=900, length=1200, outline=np.zeros((1, 2)))
        >>> throat_side(Hooping(number=1, field=(200, 300), centre=(200, 300)), rug, "cm")
        'the right side, 70 cm of the quilt'
    """
    turn = radians(hooping.turn_deg)
    right = {
        "right side": (cos(turn), piece.width - hooping.centre[0]),
        "bottom": (sin(turn), piece.length - hooping.centre[1]),
        "left side": (-cos(turn), hooping.centre[0]),
        "top": (-sin(turn), hooping.centre[1]),
    }
    side = max(right, key=lambda name: right[name][0])
    length = format_length(max(right[side][1], 0.0), unit)
    return f"the {side}, {length} of the {piece.name}"


def throat_text(hooping: Hooping, piece: Piece, throat: tuple[float, float], unit: Unit) -> str:
    """Return what of the piece lies in the throat, and whether it fits there.

    Args:
        hooping: Where the hoop lies.
        piece: What is sewn on.
        throat: Width and height of the machine's throat, mm.
        unit: What lengths are told in.
    """
    side, lies = throat_side(hooping, piece, unit), hooping.throat
    if lies is None:
        return side
    if lies.roll == 0:
        flat = f"{side}, flat"
        return flat if lies.fits else f"{flat}: the hoop is too large for the throat"
    roll = f"{side}, rolled up to the ring, {format_length(lies.roll, unit)} thick"
    return roll if lies.fits else f"{roll}: too much for a throat of {size(*throat, unit)}"


def ring_text(hooping: Hooping, margin: float, unit: Unit) -> str:
    """Return which edges of the piece the ring reaches past, and what to do; empty for none.

    Args:
        hooping: Where the hoop lies.
        margin: How far backing and batting reach beyond the piece, mm.
        unit: What lengths are told in.
    """
    past = past_edges(hooping.overhang, unit)
    if not past:
        return ""
    held = hooping.overhang.most <= margin
    todo = "backing and batting hold it" if held else _HOLD
    return f"reaches {past}: {todo}"


def turn_text(stage: Stage, hooping: Hooping) -> str:
    """Return how the piece is turned before a hooping; empty where it stays as it lay."""
    before = next(
        (one.hooping for one in stage.hoopings if one.hooping.number == hooping.number - 1),
        hooping,
    )
    turned = turned_by(before.turn_deg, hooping.turn_deg)
    return f"turn the {stage.piece.name} by {turned} first" if turned else ""


def tenths(place: tuple[float, float]) -> str:
    """Return a place in the field as machines show it: mm to the right and down.

    Example:
        >>> tenths((-85.04, 110))
        '-85.0, 110.0'
    """
    return ", ".join(f"{round(distance, 1) + 0.0:.1f}" for distance in place)
