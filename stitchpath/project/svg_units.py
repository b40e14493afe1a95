"""Sizes and places of SVG in user units, and the matrices of transforms and viewports.

A user unit of the outermost viewport is a CSS pixel, 96 to the inch (CSS Values and Units,
"absolute lengths"; SVG 2, "coordinate systems, transformations and units").
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot, sqrt
from types import MappingProxyType
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray
from svgelements import Matrix as Transform

Matrix: TypeAlias = NDArray[np.float64]
"""Shape (3, 3): `outer = matrix . (x, y, 1)`."""

Side: TypeAlias = Literal["across", "down", "other"]
"""What a percentage is of: the viewport's width, its height, or its diagonal by root 2."""

MM_PER_PIXEL: Final = 25.4 / 96
_NUMBER: Final = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
_LENGTH: Final = re.compile(rf"\s*({_NUMBER})\s*([a-zA-Z]*|%)\s*", re.ASCII)
_LONGEST: Final = 100  # characters of a size
_PIXELS: Final[Mapping[str, float]] = MappingProxyType({
    "": 1.0, "px": 1.0, "in": 96.0, "cm": 96 / 2.54, "mm": 96 / 25.4, "q": 96 / 101.6,
    "pt": 96 / 72, "pc": 16.0,
})  # fmt: skip
_PER_EM: Final[Mapping[str, float]] = MappingProxyType({"em": 1.0, "ex": 0.5})
"""An ex is half an em where no font says otherwise (CSS Values and Units)."""

_TRANSFORM: Final = re.compile(
    r"[\s,]*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)[\s,]*"
)
_COUNTS: Final[Mapping[str, frozenset[int]]] = MappingProxyType({
    "matrix": frozenset({6}), "translate": frozenset({1, 2}), "scale": frozenset({1, 2}),
    "rotate": frozenset({1, 3}), "skewX": frozenset({1}), "skewY": frozenset({1}),
})  # fmt: skip
_ALIGN: Final = re.compile(r"\s*(none|x(Min|Mid|Max)Y(Min|Mid|Max))(?:\s+(meet|slice))?\s*")
_SHARES: Final[Mapping[str, float]] = MappingProxyType({"Min": 0.0, "Mid": 0.5, "Max": 1.0})


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """What relative sizes refer to: the viewport's width and height, and the font's size."""

    width: float
    height: float
    font_size: float = 16.0

    def read(self, text: str, side: Side) -> float:
        """Return a size or place in user units.

        Raises:
            ValueError: The text is no length of SVG.

        Example:
            >>> Units(width=400, height=300).read("1in", "across")
            96.0
            >>> Units(width=400, height=300).read("10%", "down")
            30.0
        """
        match = _LENGTH.fullmatch(text) if len(text) <= _LONGEST else None
        unit = match[2].lower() if match is not None else "?"
        if match is None or not (unit in _PIXELS or unit in _PER_EM or unit == "%"):
            raise ValueError(f"a size in the file cannot be read: `{text[:30]}`")
        number = float(match[1])
        if unit == "%":
            return number / 100 * self._whole(side)
        return number * (_PIXELS[unit] if unit in _PIXELS else _PER_EM[unit] * self.font_size)

    def _whole(self, side: Side) -> float:
        if side == "other":
            return hypot(self.width, self.height) / sqrt(2)
        return self.width if side == "across" else self.height


def read_numbers(text: str) -> list[float]:
    """Return the numbers of a list, parted by spaces or commas.

    Raises:
        ValueError: Something in it is no number.
    """
    parts = text.replace(",", " ").split()
    if not all(re.fullmatch(_NUMBER, part, re.ASCII) for part in parts):
        raise ValueError(f"a list of numbers in the file cannot be read: `{text[:30]}`")
    return [float(part) for part in parts]


def read_transform(text: str) -> Matrix:
    """Return the matrix of a `transform` attribute.

    Raises:
        ValueError: The text is no list of SVG's transforms.

    Example:
        >>> read_transform("translate(10,20) scale(2)").tolist()
        [[2.0, 0.0, 10.0], [0.0, 2.0, 20.0], [0.0, 0.0, 1.0]]
    """
    place = 0
    while place < len(text):
        match = _TRANSFORM.match(text, place)
        if match is None or len(read_numbers(match[2])) not in _COUNTS[match[1]]:
            raise ValueError(f"a transform in the file cannot be read: `{text[:30]}`")
        place = match.end()
    try:
        found = Transform(text)
    except (ValueError, OverflowError) as fault:
        raise ValueError(f"a transform in the file is out of range: `{text[:30]}`") from fault
    return np.array([[found.a, found.c, found.e], [found.b, found.d, found.f], [0, 0, 1]])


def shift(x: float, y: float) -> Matrix:
    """Return the matrix that moves by x and y."""
    return np.array([[1.0, 0.0, x], [0.0, 1.0, y], [0.0, 0.0, 1.0]])


def view(
    box: tuple[float, float, float, float], viewport: tuple[float, float], align: str
) -> Matrix:
    """Return how a viewBox lies in its viewport (SVG 2, "computing the equivalent transform").

    Args:
        box: x, y, width, height of the viewBox; width and height > 0.
        viewport: Width and height.
        align: The value of `preserveAspectRatio`; one that cannot be read is as none at all.

    Example:
        >>> view((0, 0, 30, 40), (50, 30), "xMaxYMax meet").tolist()
        [[0.75, 0.0, 27.5], [0.0, 0.75, 0.0], [0.0, 0.0, 1.0]]
    """
    across, down = viewport[0] / box[2], viewport[1] / box[3]
    match = _ALIGN.fullmatch(align)
    way, x_way, y_way, meet = match.groups() if match else ("", "Mid", "Mid", None)
    if way == "none":
        x_way = y_way = "Min"
    else:
        across = down = max(across, down) if meet == "slice" else min(across, down)
    left = (viewport[0] - box[2] * across) * _SHARES[x_way] - box[0] * across
    top = (viewport[1] - box[3] * down) * _SHARES[y_way] - box[1] * down
    return np.array([[across, 0.0, left], [0.0, down, top], [0.0, 0.0, 1.0]])
