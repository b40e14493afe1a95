"""Text that finds its room: how wide it is, where it breaks, where a number fits."""

import re
import textwrap
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Final

Box = tuple[float, float, float, float]
"""x0, y0, x1, y1 in mm."""

WIDTH: Final = 0.6
"""Of a letter, as a share of the text's height: the mean of a wide sans-serif face. Which face
a viewer has is unknown, so this is on the wide side."""
_LENGTH: Final = re.compile(r"(\d) (mm|cm|in)\b")
_WIDE: Final = {"W", "F"}


@lru_cache(maxsize=4096)
def text_width(text: str, size: float) -> float:
    """Return about how wide a line of text is, in the unit of `size`; never much too narrow.

    Example:
        >>> text_width("stitch", 10.0)
        36.0
    """
    return sum(_letters(letter) for letter in text) * WIDTH * size


def wrapped(text: str, *, size: float, width: float) -> list[str]:
    """Return text broken into lines that are at most so wide; a long word is broken too.

    A number keeps its unit.
    """
    return list(_wrapped(text, size, width))


@lru_cache(maxsize=256)
def _wrapped(text: str, size: float, width: float) -> tuple[str, ...]:
    """Return the lines; kept, since much of what is written is the same in every picture."""
    share = max(1.0, sum(_letters(letter) for letter in text) / max(len(text), 1))
    letters = max(4, int(width / (WIDTH * size * share)))
    together = _LENGTH.sub("\\1\u00a0\\2", text)
    return tuple(textwrap.wrap(together, letters) or [""])


@dataclass(slots=True)
class Room:
    """What is taken of a drawing. The only value here that changes: it fills up.

    Attributes:
        cell: Size of the squares that boxes are looked up by, mm.
        within: The drawing; labels stay inside.
    """

    cell: float
    within: Box
    _taken: dict[tuple[int, int], list[Box]] = field(default_factory=dict)

    def is_free(self, box: Box) -> bool:
        """Whether a box lies in the drawing and nothing that was taken reaches into it."""
        if not self.holds(box):
            return False
        (left, top, right, bottom), cell, taken = box, self.cell, self._taken
        rows = range(int(top // cell), int(bottom // cell) + 1)
        for column in range(int(left // cell), int(right // cell) + 1):
            for row in rows:
                for x0, y0, x1, y1 in taken.get((column, row), ()):
                    if left < x1 and x0 < right and top < y1 and y0 < bottom:
                        return False
        return True

    def holds(self, box: Box) -> bool:
        """Whether a box lies in the drawing."""
        x0, y0, x1, y1 = self.within
        return x0 <= box[0] and y0 <= box[1] and box[2] <= x1 and box[3] <= y1

    def take(self, box: Box) -> None:
        """Take a box."""
        (left, top, right, bottom), cell = box, self.cell
        rows = range(int(top // cell), int(bottom // cell) + 1)
        for column in range(int(left // cell), int(right // cell) + 1):
            for row in rows:
                self._taken.setdefault((column, row), []).append(box)


def widened(box: Box, by: float) -> Box:
    """Return a box with room added on every side."""
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def place_label(
    at: tuple[float, float], extent: tuple[float, float], room: Room, *, gap: float, must: bool
) -> Box | None:
    """Find and take a place for a label beside a point.

    Args:
        at: The point.
        extent: Width and height of the label, mm.
        room: What is taken already.
        gap: From the point to the label, mm.
        must: Take a place even if there is no room.

    Returns:
        The label's box, or None where there is no room.
    """
    free = next(filter(room.is_free, _places(at, extent, gap)), None)
    if free is None and must:
        places = list(_places(at, extent, gap))
        free = next(filter(room.holds, places), places[0])
    if free is not None:
        room.take(free)
    return free


_SIDES: Final = ((1, -1), (-1, -1), (1, 1), (-1, 1), (1, 0), (-1, 0), (0, -1), (0, 1))


def _places(at: tuple[float, float], extent: tuple[float, float], gap: float) -> Iterator[Box]:
    """Yield the boxes beside a point, the best first."""
    width, height = extent
    for across, along in _SIDES:
        x = at[0] + across * (gap + width / 2)
        y = at[1] + along * (gap + height / 2)
        yield x - width / 2, y - height / 2, x + width / 2, y + height / 2


def _letters(letter: str) -> float:
    if unicodedata.combining(letter):
        return 0.0
    return 1.8 if unicodedata.east_asian_width(letter) in _WIDE else 1.0
