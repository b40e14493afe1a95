"""Common fields: what the needle can reach in the hoops that are sold.

The sizes are common practice, no source.

A hoop's trade name in inches is not its field: always go by the machine's own figure in mm.
"""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A field: its width and height in mm, and the size in inches it is often called by."""

    width: float
    height: float
    called: str

    @property
    def name(self) -> str:
        """The field as a maker writes it, in mm."""
        return f"{self.width:g}x{self.height:g}"

    @property
    def summary(self) -> str:
        """One line for a listing."""
        return f"{self.width:g} x {self.height:g} mm, often called {self.called}"


FIELDS: Final[tuple[Field, ...]] = (
    Field(width=100, height=100, called="4 x 4 in"),
    Field(width=130, height=180, called="5 x 7 in"),
    Field(width=150, height=240, called="6 x 9 or 6 x 10 in"),
    Field(width=160, height=260, called="6 x 10 in"),
    Field(width=200, height=200, called="8 x 8 in"),
    Field(width=200, height=300, called="8 x 12 in"),
    Field(width=240, height=360, called="9 x 14 in"),
    Field(width=250, height=400, called="10 x 16 in"),
)
"""From small to large."""


def smallest_field(width: float, height: float, *, may_turn: bool = True) -> Field | None:
    """Return the smallest common field that holds a rectangle in mm, or None.

    Example:
        >>> smallest_field(170, 120).name
        '130x180'
    """
    for field in FIELDS:
        upright = width <= field.width and height <= field.height
        turned = may_turn and width <= field.height and height <= field.width
        if upright or turned:
            return field
    return None
