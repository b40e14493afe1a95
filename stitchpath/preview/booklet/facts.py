"""What the booklet says of hoopings and threads, as short texts."""

from math import cos, radians, sin

from stitchpath.model.hooping import Hooping
from stitchpath.model.piece import Piece
from stitchpath.model.plan import Stage
from stitchpath.units import Unit, format_length


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


def tenths(place: tuple[float, float]) -> str:
    """Return a place in the field as machines show it: mm to the right and down.

    Example:
        >>> tenths((-85.04, 110))
        '-85.0, 110.0'
    """
    return ", ".join(f"{round(distance, 1) + 0.0:.1f}" for distance in place)
