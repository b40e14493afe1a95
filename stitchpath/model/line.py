"""Designed lines."""

from dataclasses import dataclass, replace
from enum import StrEnum

from stitchpath.geometry.points import Points, frozen_points


class LineKind(StrEnum):
    """What a line is for; in the order in which kinds are sewn."""

    QUILTING = "quilting"
    MOUTH = "mouth"
    EDGE = "edge"
    SEAM = "seam"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Line:
    """A line to be sewn on a piece, or the part of one that a hooping sews.

    Attributes:
        points: Vertices in order, shape (n, 2), mm, in the piece's frame; n >= 2; a closed line
            ends on its first point; a line may go over a stretch of itself again.
        kind: What it is for.
        stitch_mm: The longest stitch chosen for it.
        again: It goes over a stretch that is sewn anyway, to save a thread cut.
        anchor: Sewn first, because it holds the layers together.
        whole: Ranges (first, last) of vertices that one hooping has to sew.
        motif: Number of the motif or text that it belongs to, or None. One hooping sews all
            lines of one number, if a field holds them.
    """

    points: Points
    kind: LineKind
    stitch_mm: float
    anchor: bool = False
    again: bool = False
    whole: tuple[tuple[int, int], ...] = ()
    motif: int | None = None

    def __post_init__(self) -> None:
        """Keep a read-only copy of the points."""
        object.__setattr__(self, "points", frozen_points(self.points))
        if len(self.points) < 2:  # noqa: PLR2004 - a line has two ends
            raise ValueError("a line has at least two points")

    def reversed(self) -> "Line":
        """Return the line the other way round."""
        last = len(self.points) - 1
        whole = tuple((last - end, last - start) for start, end in reversed(self.whole))
        return replace(self, points=self.points[::-1], whole=whole)
