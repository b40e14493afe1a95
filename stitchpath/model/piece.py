"""Pieces and stages before any line is laid."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

import shapely

from stitchpath.geometry.points import Points, frozen_points
from stitchpath.model.design import Design
from stitchpath.model.line import Line
from stitchpath.model.quilt import Quilting
from stitchpath.model.thread import ThreadPair

StageName: TypeAlias = Literal["pocket", "quilt", "seam"]
"""In the order of sewing."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """What lies under the needle, face up, its origin at the top left corner.

    Attributes:
        name: `quilt` or `pocket`.
        width: Finished width, mm.
        length: Finished length, mm.
        outline: The finished outline as a closed ring, shape (n, 2), mm.
        shadow: Outline of what is sewn onto it (the pocket on the quilt), or None; drawn, never
            sewn.
    """

    name: str
    width: float
    length: float
    outline: Points
    shadow: Points | None = None

    def __post_init__(self) -> None:
        """Keep read-only copies of the outlines."""
        object.__setattr__(self, "outline", frozen_points(self.outline))
        if self.shadow is not None:
            object.__setattr__(self, "shadow", frozen_points(self.shadow))

    @property
    def centre(self) -> tuple[float, float]:
        """The middle of the finished outline."""
        return self.width / 2, self.length / 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StageTask:
    """What a stage is asked to sew, before any line is laid.

    Attributes:
        name: The stage's name.
        piece: What lies under the needle.
        area: Where quilting may lie: inside margins and edge lines.
        sewn_edges: What a quilting line must not run along: finished outline, edge lines.
        quilting: The layouts to lay on the area.
        given: Lines that need no layout: edge, mouth and seam lines.
        thread: The stage's pair of threads.
        thickness_mm: Of what the needle goes through.
        draws_up: Each run begins with a stitch and a pause, to draw the bobbin thread up.
        barriers: Where no thread may lie across besides the layouts' keep-outs, such as the
            pocket's opening; None for none.
        designs: The stitch files placed on it.
    """

    name: StageName
    piece: Piece
    area: shapely.Polygon
    sewn_edges: shapely.MultiLineString
    quilting: tuple[Quilting, ...]
    given: tuple[Line, ...]
    thread: ThreadPair
    thickness_mm: float
    draws_up: bool
    barriers: shapely.Geometry | None = None
    designs: tuple[Design, ...] = ()
