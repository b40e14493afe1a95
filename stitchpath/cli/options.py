"""Options read as lengths, numbers and times, within the limits of the project file's keys."""

import re
from typing import Final

from stitchpath.cli.usage import UsageError
from stitchpath.project.keys import find_key
from stitchpath.units import parse_length

_CLOCK: Final = re.compile(r"(?:(?P<h>\d{1,3}):)?(?P<min>\d{1,3}):(?P<s>[0-5]\d)", re.ASCII)
_WORDS: Final = re.compile(
    r"(?:(?P<h>\d{1,3}(?:[.,]\d+)?) ?h(?:ours?)?)? ?"
    r"(?:(?P<min>\d{1,4}) ?min(?:utes?)?)? ?"
    r"(?:(?P<s>\d{1,5}) ?s(?:ec|econds?)?)?",
    re.ASCII,
)
_SECONDS: Final = {"h": 3600, "min": 60, "s": 1}

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


def option_time(option: str, text: str, *, clock: bool = True) -> float:
    """Return a time given as an option, in seconds.

    Args:
        option: Its name, for the message.
        text: `12:30` for minutes and seconds, `1:02:30` with hours, or `2 h 30 min`.
        clock: Whether the forms with a colon are taken: what they count must be plain.

    Raises:
        UsageError: The text is no time, or none at all.

    Example:
        >>> option_time("--timed", "12:30"), option_time("--evening", "1.5 h")
        (750.0, 5400.0)
    """
    match = (_CLOCK.fullmatch(text.strip()) if clock else None) or _WORDS.fullmatch(
        text.strip()
    )
    parts = match.groupdict(default="0") if match else {}
    seconds = sum(float(parts[name].replace(",", ".")) * _SECONDS[name] for name in parts)
    if not seconds:
        form = "`12:30` for minutes and seconds, or `12 min 30 s`" if clock else "`2 h 30 min`"
        raise UsageError(f"{option} cannot be `{text}`\nhelp: a time is written {form}")
    return float(seconds)
