"""Where marks were found, as typed: `A=-95.2,140`."""

from collections import Counter
from collections.abc import Iterable, Mapping
from itertools import combinations
from math import dist
from typing import Final

from stitchpath.cli.usage import UsageError
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.hooping import Hooping
from stitchpath.units import parse_length

_FEWEST: Final = 2
_AXES: Final = 2
_FORM: Final = "a mark is a name and a place in the field, such as `A=-95.2,140`"
BARE_NUMBERS: Final = "a number without a unit is in mm, as machines show it"


def found_marks(options: Iterable[str], hooping: Hooping) -> dict[str, tuple[float, float]]:
    """Return where marks of a hooping were found, by name, mm in the field.

    Args:
        options: Each `NAME=X,Y`: from the field's centre, x to the right and y down.
        hooping: As planned.

    Raises:
        UsageError: They are not places, not marks of the hooping, too few, or one place.
    """
    pairs = [_read(option) for option in options]
    have = ", ".join(f"`{mark.name}`" for mark in hooping.marks)
    known = {mark.name for mark in hooping.marks}
    for name, place in pairs:
        if name not in known:
            raise UsageError(
                f"hooping {hooping.number} has no mark `{name}`\nhelp: its marks are {have}"
            )
        _check_reach(name, place, hooping)
    for name, count in Counter(name for name, _ in pairs).items():
        if count > 1:
            raise UsageError(f"--mark gives `{name}` {count} times\nhelp: give each mark once")
    found = dict(pairs)
    if len(found) < _FEWEST:
        raise UsageError(
            "--mark gives one mark, and one does not tell how the hoop is turned\n"
            f"help: find two or more of {have}"
        )
    _check_apart(found)
    return found


def _read(option: str) -> tuple[str, tuple[float, float]]:
    name, _, places = option.partition("=")
    parts = places.split(",")
    if len(parts) != _AXES:
        raise UsageError(f"--mark cannot be `{option}`\nhelp: {_FORM}; {BARE_NUMBERS}")
    try:
        x, y = (parse_length(part) for part in parts)
    except ValueError as fault:
        raise UsageError(f"--mark cannot be `{option}`\nhelp: {_FORM}; {fault}") from fault
    return name.strip().upper(), (x, y)


def _check_reach(name: str, place: tuple[float, float], hooping: Hooping) -> None:
    half = [side / 2 for side in hooping.field]
    if any(most + GRID_MM < abs(at) for at, most in zip(place, half, strict=True)):
        raise UsageError(
            f"--mark puts `{name}` outside the field: {place[0]:g} mm, {place[1]:g} mm\n"
            f"help: the needle reaches {half[0]:g} mm left and right of the field's centre, "
            f"{half[1]:g} mm up and down; {BARE_NUMBERS}"
        )


def _check_apart(found: Mapping[str, tuple[float, float]]) -> None:
    for (one, place), (other, elsewhere) in combinations(found.items(), 2):
        if dist(place, elsewhere) <= GRID_MM:
            raise UsageError(
                f"--mark puts `{one}` and `{other}` at one place\n"
                "help: write down the needle's position on each mark"
            )
