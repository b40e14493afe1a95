"""A file timed at the machine: which speed factor makes the estimate come out the same."""

from dataclasses import asdict, dataclass
from typing import Any

from stitchpath.cli.options import option_time
from stitchpath.cli.usage import UsageError
from stitchpath.estimate import timed_factor
from stitchpath.model.plan import Figures
from stitchpath.model.supplies import FACTOR_LIMITS, Times
from stitchpath.preview.words import duration

_DECIMALS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Timed:
    """A timed file: how long it took, what was estimated (s), and the factor between."""

    seconds: float
    estimated: float
    speed_factor: float


def find_timed(text: str, figures: Figures) -> Timed:
    """Return what a file timed at the machine tells.

    Args:
        text: The time as typed, such as `12:30`.
        figures: What the file comes to with the times that a project has by default.

    Raises:
        UsageError: It is no time, or one that this file cannot take.
    """
    seconds = option_time("--timed", text)
    try:
        factor = timed_factor(figures, Times(), seconds)
    except ValueError as fault:
        raise UsageError(
            f"--timed cannot be `{text}`: {fault}\n"
            "help: time the file from its first stitch to its last, all stops included"
        ) from fault
    low, high = FACTOR_LIMITS
    if not low <= factor <= high:
        raise UsageError(
            f"--timed cannot be `{text}`: estimated are {duration(figures.seconds)},"
            f" so the speed factor would be {factor:.2g}\n"
            f"help: it must be between {low:g} and {high:g};"
            " check --speed, which is the speed set at the machine"
        )
    return Timed(seconds=seconds, estimated=figures.seconds, speed_factor=factor)


def show_timed(timed: Timed) -> str:
    """Return what was found, and what to write into the project."""
    factor = timed.speed_factor
    return "\n".join(
        [
            f"timed {_exact(timed.seconds)}, estimated {_exact(timed.estimated)}",
            f"cuts and pauses apart, it sews at {factor:.0%} of the estimated speed",
            "write into the project:",
            "[times]",
            f"speed_factor = {factor:.{_DECIMALS}f}",
        ]
    )


def timed_data(timed: Timed) -> dict[str, Any]:
    """Return the same as data."""
    rounded = {name: round(value, _DECIMALS) for name, value in asdict(timed).items()}
    return {"timed": rounded}


def _exact(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes} min {rest} s" if minutes else f"{rest} s"
