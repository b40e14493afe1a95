"""Options read as lengths and numbers, within the limits that the project file's keys have."""

from typing import Final

from stitchpath.cli.usage import UsageError
from stitchpath.project.keys import find_key
from stitchpath.units import parse_length

SANDWICHES: Final = 2
"""Quilt and pocket: together they may be twice as thick as one of them."""


_SIDES: Final = 2


def key_limits(*path: str | int) -> tuple[float, float]:
    """Return the limits of a key of the project file.

    Example:
        >>> key_limits("pocket", "seam", "corner_side")
        (3.0, 100.0)
    """
    key = find_key(path)
    if key is None:
        raise ValueError(f"no key of the project file: {path}")
    return key.low, key.high


def option_length(option: str, text: str, *, low: float, high: float) -> float:
    """Return a length given as an option, mm.

    Raises:
        UsageError: The text is not a length, or out of its limits.
    """
    try:
        length = parse_length(text)
    except ValueError as fault:
        raise UsageError(f"{option} cannot be `{text}`\nhelp: {fault}") from fault
    if not low <= length <= high:
        raise UsageError(
            f"{option} cannot be `{text}`\n"
            f"help: it must be between {low:g} mm and {high:g} mm; "
            "a number without a unit is in mm"
        )
    return length


def option_field(text: str) -> tuple[float, float]:
    """Return the width and height given as `--field`, mm.

    Raises:
        UsageError: The text is not two lengths with an `x` between, or out of their limits.
    """
    sides = text.lower().removesuffix("mm").split("x")
    if len(sides) != _SIDES:
        raise UsageError(
            f"--field cannot be `{text}`\n"
            "help: a field is a width and a height, such as `100x100`"
        )
    low, high = key_limits("machine", "field", 0)
    width, height = (
        option_length("--field", side.strip(), low=low, high=high) for side in sides
    )
    return width, height


def option_number(
    option: str, text: str, *, low: float, high: float, whole: bool = False
) -> float:
    """Return a number given as an option.

    Raises:
        UsageError: The text is not a number, or not a whole one, or out of its limits.
    """
    try:
        number = int(text) if whole else float(text)
    except ValueError:
        number = float("nan")
    if not low <= number <= high:
        what = "a whole number" if whole else "a number"
        raise UsageError(
            f"{option} cannot be `{text}`\nhelp: it must be {what} between {low:g} and {high:g}"
        )
    return number
