"""What a route comes to."""

from dataclasses import dataclass

from stitchpath.model.stitches import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteFigures:
    """A hooping's route in figures.

    Attributes:
        runs: Stretches sewn without cutting the thread.
        least_runs: The fewest runs that sew every line once without sewing any again, by
            Euler's theorem; sewing again or a short hop can bring the runs below it.
        retraced_mm: Length sewn a second time.
        travel_mm: Length moved without sewing between runs and over hops.
        islands: Lines closed in: with a stretch inside a loop that lines before them closed,
            with no open side for the layers' slack.
        open_cuts: Cuts that could be saved by closing loops round what is not sewn yet.
    """

    runs: int = 0
    least_runs: int = 0
    retraced_mm: float = 0.0
    travel_mm: float = 0.0
    islands: int = 0
    open_cuts: int = 0

    def __add__(self, other: "RouteFigures") -> "RouteFigures":
        """Add figure by figure."""
        return RouteFigures(
            **{name: getattr(self, name) + getattr(other, name) for name in _NAMES}
        )


_NAMES = tuple(RouteFigures.__dataclass_fields__)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Route:
    """A hooping's runs in the order of sewing, and what they come to."""

    runs: tuple[Run, ...]
    figures: RouteFigures
