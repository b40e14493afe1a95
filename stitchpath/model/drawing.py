"""Drawings: a maker's own lines, read from an SVG file."""

from dataclasses import dataclass

from stitchpath.geometry.points import Points, frozen_points


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawing:
    """The strokes of an SVG file, in mm, x right and y down.

    Attributes:
        source: The file's name as the project gives it.
        strokes: Polylines, each of shape (n, 2); curves are flattened far below what shows; a
            closed stroke ends on its first point.
        ignored: What was left out and why, one phrase each.
    """

    source: str
    strokes: tuple[Points, ...]
    ignored: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Keep read-only copies of the strokes."""
        object.__setattr__(
            self, "strokes", tuple(frozen_points(stroke) for stroke in self.strokes)
        )
