"""The kinds of values a project file holds, as types that read and check themselves.

Validation context: `{"units": "mm" | "cm" | "in"}` says what a bare number means. Without a
context a number is in mm, and a share is a fraction: so are values built in Python.
"""

import re
import unicodedata
from dataclasses import dataclass
from typing import Annotated, Final, Literal, TypeAlias

import webcolors
from pydantic import BeforeValidator, ConfigDict, Field, Strict, ValidationInfo
from pydantic_core import PydanticCustomError

from stitchpath.units import parse_length

TABLE: Final = ConfigDict(extra="forbid", validate_by_alias=True, validate_by_name=True)
"""Of a value that is a table of the project file: no other keys. By name for Python code, where
`raise_` cannot be `raise`; files are read by alias alone."""
LONGEST_NAME: Final = 120
"""Characters; what fits on one line of a printed sheet."""

_DIRECTION_MARKS: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
SHARE_PATTERN: Final = r"^\s*[-+]?(\d+([.,]\d+)?|[.,]\d+)\s*%?\s*$"
"""What a share looks like, as a regular expression that editors understand (ECMA 262)."""
_SHARE: Final = re.compile(SHARE_PATTERN, re.ASCII)
_LONGEST_COLOUR: Final = 40
LONGEST_GCODE: Final = 60
"""Characters; a line of G-code may have 256."""
GCODE_PATTERN: Final = r"^\s*[A-Za-z][-+]?\d+(\.\d+)?(\s+[A-Za-z][-+]?\d+(\.\d+)?)*\s*$"
"""What words of G-code look like, as a regular expression for editors (ECMA 262)."""
_GCODE: Final = re.compile(GCODE_PATTERN, re.ASCII)
_GCODE_ENDS: Final = frozenset({"M2", "M02", "M30"})


@dataclass(frozen=True, slots=True)
class Kind:
    """What a value is, for messages, the schema and the reference pages.

    A `layout`, `format`, `bobbin` or `check` is one of the names that this installation has;
    which those are is known above this room only, so it is checked where files are read.
    """

    name: Literal[
        "length",
        "share",
        "colour",
        "name",
        "layout",
        "format",
        "bobbin",
        "check",
        "drawing",
        "design",
        "gcode",
    ]


def _read_length(value: object, info: ValidationInfo) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise PydanticCustomError("length", "is not a length")
    try:
        return parse_length(value, unit=(info.context or {}).get("units", "mm"))
    except ValueError as fault:
        raise PydanticCustomError("length", "{why}", {"why": str(fault)}) from fault


def _read_share(value: object, info: ValidationInfo) -> float:
    """Read a share: `3 %`; a bare number is percent in a file, a fraction in Python."""
    written = isinstance(value, str)
    if isinstance(value, str) and _SHARE.match(value):
        value = float(value.strip().removesuffix("%").strip().replace(",", "."))
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise PydanticCustomError("share", "a percentage looks like `3 %`")
    if info.context is None and not written:
        return value
    try:
        return round(value / 100, 9)
    except OverflowError:
        return float("inf") if value > 0 else float("-inf")


def _read_colour(value: object) -> str:
    """Read a CSS colour name or `#rrggbb`; return `#rrggbb`."""
    try:
        text = value if isinstance(value, str) and len(value) <= _LONGEST_COLOUR else ""
        if text.startswith("#"):
            return str(webcolors.normalize_hex(text))
        return str(webcolors.name_to_hex(text))
    except ValueError as fault:
        raise PydanticCustomError(
            "colour", "a colour is a CSS colour name such as `teal`, or `#rrggbb`"
        ) from fault


def _read_name(value: object) -> str:
    """Refuse what would break a line of a report or a printed sheet."""
    if not isinstance(value, str):
        raise PydanticCustomError("name", "is not text")
    if not value.strip():
        raise PydanticCustomError("name", "is empty")
    if len(value) > LONGEST_NAME:
        raise PydanticCustomError(
            "name", "has {count} characters", {"count": len(value), "longest": LONGEST_NAME}
        )
    for place, character in enumerate(value, start=1):
        if breaks_lines(character):
            raise PydanticCustomError(
                "name",
                "has a control character, {character}, at its place {place}",
                {"character": f"U+{ord(character):04X}", "place": place},
            )
    return value


def _read_gcode(value: object) -> str:
    """Read words of G-code that neither move along x or y nor end the program."""
    if not isinstance(value, str) or len(value) > LONGEST_GCODE or not _GCODE.match(value):
        raise PydanticCustomError(
            "gcode", "a word is a letter and a number, such as `M3` or `G0 Z5`"
        )
    words = value.upper().split()
    for word in words:
        if word[0] in "XYN" or word in _GCODE_ENDS:
            raise PydanticCustomError(
                "gcode", "{word} does not put a needle up or down", {"word": word}
            )
    return " ".join(words)


def breaks_lines(character: str) -> bool:
    r"""Tell whether a character controls how text is shown instead of being shown.

    Control characters, line and paragraph separators, lone surrogates and the marks that turn
    the direction of writing (Unicode general categories Cc, Zl, Zp, Cs; UAX #9 for the last).

    Example:
        >>> [breaks_lines(character) for character in "a\n\u202e é"]
        [False, True, True, False, False]
    """
    category = unicodedata.category(character)
    return category in {"Cc", "Cs", "Zl", "Zp"} or character in _DIRECTION_MARKS


Length: TypeAlias = Annotated[
    float, BeforeValidator(_read_length), Field(allow_inf_nan=False), Kind("length")
]
"""A length in mm, read from text or from a number in the project's unit."""

Share: TypeAlias = Annotated[
    float, BeforeValidator(_read_share), Field(allow_inf_nan=False), Kind("share")
]
"""A fraction from 0 to 1, read from a percentage; in a file a bare number means percent."""

Colour: TypeAlias = Annotated[str, BeforeValidator(_read_colour), Kind("colour")]
"""A colour as `#rrggbb`, lower case, read from a CSS colour name or a hex code."""

Name: TypeAlias = Annotated[
    str,
    BeforeValidator(_read_name),
    Field(min_length=1, max_length=LONGEST_NAME),
    Kind("name"),
]
"""One line of text."""

LayoutName: TypeAlias = Annotated[str, Strict(), Kind("layout")]
"""A name of `stitchpath list layouts`."""

GcodeLine: TypeAlias = Annotated[
    str,
    BeforeValidator(_read_gcode),
    Field(min_length=2, max_length=LONGEST_GCODE),
    Kind("gcode"),
]
"""Words of one line of G-code, in capitals."""

FormatName: TypeAlias = Annotated[str, Strict(), Kind("format")]
"""A name of `stitchpath list formats`."""

BobbinName: TypeAlias = Annotated[str, Strict(), Kind("bobbin")]
"""A name of `stitchpath list bobbins`."""

CheckName: TypeAlias = Annotated[str, Strict(), Kind("check")]
"""A name that `stitchpath check` shows in brackets."""
