"""Rules on designs: that their keys go together, their areas are sound, their copies few."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from stitchpath.layouts import count_copies
from stitchpath.model.project import Project
from stitchpath.project.area_rules import shape_faults
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.layout_rules import unused_in_shape, written_at
from stitchpath.project.placed import placed_designs
from stitchpath.project.size_rules import corners_are_few

MOST_NEEDLE_POINTS: Final = 1_000_000
"""Of all copies of all designs; a file may have 200,000."""
MOST_RUNS: Final = 20_000
"""Of all copies of all designs."""
_NO_WIDTH_MM: Final = 0.1

_OF_ROWS: Final = ("columns", "rows", "pitch", "area")
"""Keys that say where copies lie."""


def designs_are_sound(project: Project) -> Iterator[Fault]:
    """Areas of designs are shapes on their piece, and what is to be scaled has a width."""
    few = not any(corners_are_few(project))
    for path, design, piece in placed_designs(project):
        if few and design.area is not None:
            yield from shape_faults((*path, "area"), design.area, piece, project.units)
        if design.width is not None and design.file.size[0] < _NO_WIDTH_MM:
            yield Fault(
                code="drawing-has-no-width",
                path=(*path, "width"),
                message="the design has no width that could be scaled",
                label="all its needle points lie on one upright line",
                help="leave `width` out, and sew it in its own size",
            )


def copies_of_designs_are_few(project: Project) -> Iterator[Fault]:
    """All copies of all designs come to fewer needle points and runs than the limits."""
    paths: list[Path] = []
    points: list[int] = []
    runs: list[int] = []
    for path, design, piece in placed_designs(project):
        copies = count_copies(design, piece)
        paths.append(path)
        points.append(copies * len(design.file.stitches.needle_points))
        runs.append(copies * design.file.most_runs)
    for counts, what, most in (
        (points, "needle points", MOST_NEEDLE_POINTS),
        (runs, "runs", MOST_RUNS),
    ):
        if sum(counts) > most:
            path = paths[counts.index(max(counts))]
            yield Fault(
                code="too-many-repeats",
                path=(*path, "repeat"),
                message=f"the copies of designs come to about {sum(counts):,} {what}",
                label=f"must come to at most {most:,}",
                notes=(f"most of them by `{key_path(path)}`",),
                help="make the `pitch` larger, the area smaller, or the copies fewer",
            )
            return


def unused_design_keys(project: Project, data: Mapping[str, Any]) -> Iterator[Fault]:
    """Keys of rows are written for designs that are repeated."""
    for path, design, _ in placed_designs(project):
        written = written_at(data, path)
        if design.area is not None:
            yield from unused_in_shape((*path, "area"), design.area, data)
        unread = _OF_ROWS if design.repeat == "single" else ()
        for name in unread:
            if name in written:
                key = key_path((*path, name))
                yield Fault(
                    code="unused-key",
                    path=(*path, name),
                    message=f"a design that is sewn once does not read `{key}`",
                    label="has no effect here",
                    help='leave it out, or add `repeat = "straight"`',
                    at="key",
                )
