"""How long a stitch may be."""

from dataclasses import dataclass

from stitchpath.geometry.tolerance import DEVIATION_MM, ROUNDING_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class StitchLimits:
    """The shortest and longest stitch, in mm, with room for rounding to the grid of files.

    Attributes:
        shortest_mm: No stitch but a tie's is shorter, where the line allows it.
        longest_mm: No stitch is longer.
        deviation_mm: How far a stitch may leave a curve.
    """

    shortest_mm: float
    longest_mm: float
    deviation_mm: float = DEVIATION_MM

    @classmethod
    def with_rounding_room(cls, shortest_mm: float, longest_mm: float) -> "StitchLimits":
        """Return limits that still hold after every point has been rounded to 0.1 mm."""
        return cls(shortest_mm=shortest_mm + ROUNDING_MM, longest_mm=longest_mm - ROUNDING_MM)
