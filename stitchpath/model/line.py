"""Designed lines."""

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, frozen_points


class LineKind(StrEnum):
    """What a line is for; in the order in which kinds are sewn."""

    QUILTING = "quilting"
    MOUTH = "mouth"
    EDGE = "edge"
    SEAM = "seam"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FileRun:
    """What a line takes from a run of a stitch file: its vertices are its needle points.

    Attributes:
        design: Number of the design within its stage.
        run: Number of the run within its file.
        thread: 0 for the stage's thread; else the number of another one within the stage.
        moved: Which needle points are reached by a move with the thread uncut, shape (n,).
        paused: Before which of them the machine stops, shape (n,).
        scale: By how much the vertices are scaled. If not 1, they are the way of the needle
            only: its stitches are still to be made.
    """

    design: int
    run: int
    thread: int
    moved: NDArray[np.bool_]
    paused: NDArray[np.bool_]
    scale: float = 1.0

    @property
    def is_scaled(self) -> bool:
        """Whether its stitches are still to be made."""
        return self.scale != 1.0

    def __post_init__(self) -> None:
        """Keep read-only copies of the columns."""
        for name in ("moved", "paused"):
            column = np.array(getattr(self, name), dtype=np.bool_)
            column.setflags(write=False)
            object.__setattr__(self, name, column)


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
        motif: Number of the motif, text or copy of a design that it belongs to, or None. One
            hooping sews all lines of one number, if a field holds them.
        file_run: What it takes from a stitch file, or None. Such a line keeps its needle points
            and its direction; a part of one begins and ends on them.
    """

    points: Points
    kind: LineKind
    stitch_mm: float
    anchor: bool = False
    again: bool = False
    whole: tuple[tuple[int, int], ...] = ()
    motif: int | None = None
    file_run: FileRun | None = None

    def __post_init__(self) -> None:
        """Keep a read-only copy of the points."""
        object.__setattr__(self, "points", frozen_points(self.points))
        if len(self.points) < 2:  # noqa: PLR2004 - a line has two ends
            raise ValueError("a line has at least two points")
        run = self.file_run
        if run is not None and not len(run.moved) == len(run.paused) == len(self.points):
            raise ValueError("the columns of a file's run are as long as its points")

    def between(self, first: int, last: int) -> "Line":
        """Return the part of a line from a stitch file from one needle point to another."""
        run, rows = run_of(self), slice(first, last + 1)
        moved = run.moved[rows] & (np.arange(last + 1 - first) > 0)
        run = replace(run, moved=moved, paused=run.paused[rows])
        return replace(self, points=self.points[rows], whole=(), file_run=run)

    def reversed(self) -> "Line":
        """Return the line the other way round; never one from a stitch file."""
        if self.file_run is not None:
            raise ValueError("a line from a stitch file is sewn as the file has it")
        last = len(self.points) - 1
        whole = tuple((last - end, last - start) for start, end in reversed(self.whole))
        return replace(self, points=self.points[::-1], whole=whole)


def run_of(line: Line) -> FileRun:
    """Return what a line takes from its stitch file.

    Raises:
        ValueError: It is from none (a caller's bug).
    """
    if line.file_run is None:
        raise ValueError("the line is from no stitch file")
    return line.file_run
