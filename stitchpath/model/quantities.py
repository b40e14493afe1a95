"""The kinds of values a project file holds, as types that read and check themselves.

Validation context: `{"units": "mm" | "cm" | "in"}` says what a bare number means. Without a
context a number is in mm, so values built in Python are in mm too.
"""

from typing import Annotated, Any, TypeAlias

import webcolors
from pydantic import BeforeValidator, Field, ValidationInfo, WithJsonSchema
from pydantic_core import PydanticCustomError

from stitchpath.units import parse_length


def _read_length(value: Any, info: ValidationInfo) -> float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise PydanticCustomError("length", "is not a length")
    try:
        return parse_length(value, unit=(info.context or {}).get("units", "mm"))
    except (ValueError, OverflowError) as fault:
        raise PydanticCustomError("length", "{why}", {"why": str(fault)}) from fault


def _read_fraction(value: Any) -> float:
    """Read a share: `3 %`, or a bare number of percent."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise PydanticCustomError("share", "is not a percentage")
    try:
        return float(str(value).strip().removesuffix("%").replace(",", ".")) / 100
    except (ValueError, OverflowError) as fault:
        raise PydanticCustomError("share", "a percentage looks like `3 %`") from fault


def _read_colour(value: Any) -> str:
    """Read a CSS colour name or `#rrggbb`; return `#rrggbb`."""
    try:
        if str(value).startswith("#"):
            return webcolors.normalize_hex(value)
        return webcolors.name_to_hex(value)
    except (ValueError, TypeError, AttributeError) as fault:
        raise PydanticCustomError(
            "colour", "a colour is a CSS colour name such as `teal`, or `#rrggbb`"
        ) from fault


_LENGTH_IN_FILE = {
    "anyOf": [{"type": "number"}, {"type": "string"}],
    "examples": ["2 1/2 in", '1/4"', "3.5 mm", "12 cm", 4],
}

Length: TypeAlias = Annotated[
    float,
    BeforeValidator(_read_length),
    Field(allow_inf_nan=False),
    WithJsonSchema(_LENGTH_IN_FILE),
]
"""A length in mm, read from text or from a number in the project's unit."""

Share: TypeAlias = Annotated[
    float,
    BeforeValidator(_read_fraction),
    Field(allow_inf_nan=False),
    WithJsonSchema(
        {"anyOf": [{"type": "number"}, {"type": "string"}], "examples": ["3 %", 2.5]}
    ),
]
"""A fraction from 0 to 1, read from a percentage."""

Colour: TypeAlias = Annotated[
    str,
    BeforeValidator(_read_colour),
    WithJsonSchema({"type": "string", "examples": ["teal", "#2a6f77"]}),
]
"""A colour as `#rrggbb`, lower case."""
