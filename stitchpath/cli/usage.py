"""Options that cannot be meant, and lengths given as options."""

from stitchpath.errors import StitchpathError
from stitchpath.units import parse_length


class UsageError(StitchpathError):
    """A command called with something it cannot take; its exit code is 2."""


def option_length(option: str, text: str) -> float:
    """Return a length given as an option, mm.

    Raises:
        UsageError: The text is not a length.
    """
    try:
        return parse_length(text)
    except ValueError as fault:
        raise UsageError(f"{option} `{text}`: {fault}") from fault
