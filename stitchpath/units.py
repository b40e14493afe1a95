"""Lengths as makers write them, and back: `2 1/2 in`, `1/4"`, `3.5 mm`, `12cm`, `1½`.

And how many of a thing there are.
"""

import re
import unicodedata
from math import ceil
from typing import Final, Literal, TypeAlias

Unit: TypeAlias = Literal["mm", "cm", "in"]

MM_PER: Final[dict[Unit, float]] = {"mm": 1.0, "cm": 10.0, "in": 25.4}
"""The inch is 25.4 mm exactly (international yard and pound agreement, 1959)."""

_SPELLINGS: Final[dict[str, Unit]] = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeters"), "mm"),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeters"), "cm"),
    **dict.fromkeys(("in", "in.", "inch", "inches", '"', "″", "”", "''"), "in"),
}
_SIXTEENTHS: Final = 16
_EIGHTHS: Final = 8
_INCHES_PER_YARD: Final = 36
MM_PER_METRE: Final = 1000.0
_LONGEST_TEXT: Final = 60
"""Characters; far more than a length needs, and too few to make a number explode."""
_LENGTH: Final = re.compile(
    r"""(?P<sign>[-+]?)\s*
    (?:(?P<whole>[0-9]+)(?:\s+|-))?(?P<over>[0-9]+)\s*/\s*(?P<under>[0-9]+)  # 1/4, 2 1/2, 2-1/2
    \s*(?P<unit>[^0-9\s].*)?$
    |(?P<sign2>[-+]?)\s*(?P<number>[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)         # 4, 3.5, 3,5, .5
    \s*(?P<unit2>[^0-9\s./,].*)?$""",
    re.VERBOSE,
)
_THOUSANDS: Final = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


def _either_case(spelling: str) -> str:
    return "".join(
        f"[{c}{c.upper()}]" if c.isalpha() else re.escape(c) if c == "." else c
        for c in spelling
    )


LENGTH_PATTERN: Final = (
    r"^\s*[-+]?\s*"
    r"([0-9]+([.,][0-9]+)?|[.,][0-9]+|([0-9]+(\s+|-))?[0-9]+\s*/\s*[0-9]+|([0-9]+\s*)?[¼½¾⅛⅜⅝⅞])"
    rf"\s*({'|'.join(map(_either_case, _SPELLINGS))})?\s*$"
)
"""What `parse_length` reads, as a regular expression that editors understand (ECMA 262); a
little wider, for it cannot tell `1/0` or `1,000` from a length."""


def parse_length(value: str | float, *, unit: Unit = "mm") -> float:
    """Return a length in mm.

    Args:
        value: A bare number, or text: a decimal, a fraction or a mixed number, and a unit or
            none. A comma may stand for the decimal point, never for thousands.
        unit: What a number without a unit means.

    Raises:
        ValueError: The text is not a length; the message says what one looks like.

    Example:
        >>> [parse_length(text, unit="in") for text in ('2 1/2', '1/4"', '3.5 mm', "1½")]
        [63.5, 6.35, 3.5, 38.1]
    """
    if not isinstance(value, str):
        return round(_finite_or_endless(value) * MM_PER[unit], 9)
    match = _LENGTH.match(_plain_fractions(value[: _LONGEST_TEXT + 1]).strip())
    if match is None or len(value) > _LONGEST_TEXT:
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


def format_field(field_mm: tuple[float, float], unit: Unit) -> str:
    """Return a field's width and height as they were typed, and in mm, as hoops are named.

    In the unit where its usual fractions hit both sides; else they were typed in mm.

    Example:
        >>> format_field((200.0, 300.0), "in"), format_field((100.0, 100.0), "cm")
        ('200 mm x 300 mm', '10 cm x 10 cm (100 mm x 100 mm)')
    """
    in_mm, in_unit = (
        " x ".join(format_length(side, told) for side in field_mm) for told in ("mm", unit)
    )
    hit = all(parse_length(format_length(side, unit)) == side for side in field_mm)
    return f"{in_unit} ({in_mm})" if hit and unit != "mm" else in_mm


def format_small_length(length_mm: float, unit: Unit) -> str:
    """Return a length of a few mm, such as an error: to 0.01 in, 0.01 cm or 0.1 mm.

    Example:
        >>> format_small_length(1.94, "in"), format_small_length(1.94, "mm")
        ('0.08 in', '1.9 mm')
    """
    digits = 1 if unit == "mm" else 2
    return f"{length_mm / MM_PER[unit]:.{digits}f} {unit}"


def format_length_up(length_mm: float, unit: Unit) -> str:
    """Return a length to cut: rounded up to 1/8 in or 1 mm, so that no piece comes out small.

    Example:
        >>> format_length_up(371.04, "in"), format_length_up(371.04, "cm")
        ('14 5/8 in', '37.2 cm')
    """
    return format_length(length_up(length_mm, unit), unit)


def length_up(length_mm: float, unit: Unit) -> float:
    """Return a length to cut as it is told, in mm, so that told lengths add up.

    Example:
        >>> length_up(371.04, "cm")
        372.0
    """
    step = MM_PER["in"] / _EIGHTHS if unit == "in" else MM_PER["mm"]
    return step * ceil(round(length_mm / step, 6))


def format_cloth(length_mm: float, unit: Unit) -> str:
    """Return a length of cloth as shops cut it: in yards to an eighth, or in metres.

    Example:
        >>> format_cloth(2286, "in"), format_cloth(1600, "mm"), format_cloth(800, "cm")
        ('2 1/2 yd', '1.6 m', '0.8 m')
    """
    if unit != "in":
        return f"{length_mm / MM_PER_METRE:.1f} m"
    yards = format_length(length_mm / _INCHES_PER_YARD, "in")  # a yard told as an inch is
    return yards.replace(" in", " yd")


def _trimmed(number: float) -> str:
    text = f"{number:.1f}"
    return "0" if text in {"0.0", "-0.0"} else text.removesuffix(".0")


def _finite_or_endless(number: float) -> float:
    try:
        return float(number)
    except OverflowError:  # a whole number of more than 308 digits
        return float("inf") if number > 0 else float("-inf")


def _amount(match: re.Match[str]) -> float:
    if match["number"]:
        if _THOUSANDS.fullmatch(match["number"]):
            raise ValueError(
                f"`{match['number']}` can be read as thousands or as decimals: write"
                f" `{match['number'].replace(',', '')}` or"
                f" `{match['number'].replace(',', '.')}`"
            )
        return float(match["number"].replace(",", "."))
    if int(match["under"]) == 0:
        raise ValueError("a fraction cannot be over zero")
    return int(match["whole"] or 0) + int(match["over"]) / int(match["under"])


def _plain_fractions(text: str) -> str:
    """Write one-character fractions out: `1½` becomes `1 1/2 `."""
    spaced = "".join(
        f" {unicodedata.normalize('NFKC', c)} " if unicodedata.category(c) == "No" else c
        for c in text
    )
    return spaced.replace("\N{FRACTION SLASH}", "/")


def number_of(number: int, one: str, more: str) -> str:
    """Return a number with what it counts.

    Example:
        >>> [number_of(number, "thread lies", "threads lie") for number in (1, 1200)]
        ['1 thread lies', '1,200 threads lie']
    """
    return f"{number:,} {one if number == 1 else more}"
