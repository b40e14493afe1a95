"""Lengths as makers write them, and back: `2 1/2 in`, `1/4"`, `3.5 mm`, `12cm`, `1½`."""

import re
import unicodedata
from typing import Final, Literal, TypeAlias

Unit: TypeAlias = Literal["mm", "cm", "in"]

MM_PER: Final[dict[Unit, float]] = {"mm": 1.0, "cm": 10.0, "in": 25.4}
"""The inch is 25.4 mm exactly (international yard and pound agreement, 1959)."""

_SPELLINGS: Final[dict[str, Unit]] = {
    **{spelling: "mm" for spelling in ("mm", "millimetre", "millimetres", "millimeters")},
    **{spelling: "cm" for spelling in ("cm", "centimetre", "centimetres", "centimeters")},
    **{spelling: "in" for spelling in ("in", "in.", "inch", "inches", '"', "″", "”", "''")},
}
_SIXTEENTHS: Final = 16
_LENGTH: Final = re.compile(
    r"""(?P<sign>[-+]?)\s*
    (?:(?P<whole>\d+)(?:\s+|-))?(?P<over>\d+)\s*/\s*(?P<under>\d+)  # 1/4, 2 1/2, 2-1/2
    \s*(?P<unit>[^\d\s].*)?$
    |(?P<sign2>[-+]?)\s*(?P<number>\d+(?:[.,]\d+)?|[.,]\d+)         # 4, 3.5, 3,5, .5
    \s*(?P<unit2>[^\d\s./,].*)?$""",
    re.VERBOSE,
)


def parse_length(value: str | float, *, unit: Unit = "mm") -> float:
    """Return a length in mm.

    Args:
        value: A bare number, or text: a decimal, a fraction or a mixed number, and a unit or
            none. A comma may stand for the decimal point.
        unit: What a number without a unit means.

    Raises:
        ValueError: The text is not a length; the message says what one looks like.

    Example:
        >>> [parse_length(text, unit="in") for text in ('2 1/2', '1/4"', '3.5 mm', "1½")]
        [63.5, 6.35, 3.5, 38.1]
    """
    if not isinstance(value, str):
        return round(float(value) * MM_PER[unit], 9)
    match = _LENGTH.match(_plain_fractions(value).strip())
    if match is None:
        raise ValueError(
            "a length is a number and a unit, such as `2 1/2 in`, `12 cm` or `3.5 mm`"
        )
    written = (match["unit"] or match["unit2"] or unit).strip().lower()
    if written not in _SPELLINGS:
        raise ValueError(f"`{written}` is not a unit of length here: use mm, cm or in")
    sign = -1.0 if "-" in (match["sign"] or match["sign2"] or "") else 1.0
    return round(sign * _amount(match) * MM_PER[_SPELLINGS[written]], 9)  # 38.1, not 38.0999…


def format_length(length_mm: float, unit: Unit) -> str:
    """Return a length as a maker reads it: to 1/16 in, 0.1 cm or 0.1 mm.

    Example:
        >>> format_length(371.0, "in"), format_length(371.04, "mm"), format_length(-3.2, "in")
        ('14 5/8 in', '371 mm', '-1/8 in')
    """
    if unit != "in":
        return f"{_trimmed(length_mm / MM_PER[unit])} {unit}"
    sixteenths = round(abs(length_mm) / MM_PER["in"] * _SIXTEENTHS)
    whole, over = divmod(sixteenths, _SIXTEENTHS)
    under = _SIXTEENTHS
    while over and over % 2 == 0:
        over, under = over // 2, under // 2
    sign = "-" if length_mm < 0 and sixteenths else ""
    parts = ([str(whole)] if whole or not over else []) + ([f"{over}/{under}"] if over else [])
    return f"{sign}{' '.join(parts)} in"


def _trimmed(number: float) -> str:
    text = f"{number:.1f}"
    return "0" if text in {"0.0", "-0.0"} else text.removesuffix(".0")


def _amount(match: re.Match[str]) -> float:
    if match["number"]:
        return float(match["number"].replace(",", "."))
    if int(match["under"]) == 0:
        raise ValueError("a fraction cannot be over zero")
    return int(match["whole"] or 0) + int(match["over"]) / int(match["under"])


def _plain_fractions(text: str) -> str:
    """Write one-character fractions out: `1½` becomes `1 1/2`."""
    spaced = "".join(
        f" {unicodedata.normalize('NFKC', c)}" if unicodedata.category(c) == "No" else c
        for c in text
    )
    return spaced.replace("\N{FRACTION SLASH}", "/")
