"""Rules on designs: that their keys go together, their areas are sound, their copies few."""

import math
from collections.abc import Iterator, Mapping
from typing import Any, Final

from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.layouts import count_copies, place_copies
from stitchpath.model.design import Design
from stitchpath.model.project import Project
from stitchpath.project.area_rules import shape_faults
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.layout_rules import unused_in_shape, written_at
from stitchpath.project.motif_rules import no_width
from stitchpath.project.placed import free_box, placed_designs
from stitchpath.project.size_rules import corners_are_few, count_meetings
from stitchpath.project.wording import length_text

MOST_NEEDLE_POINTS: Final = 500_000
"""Of all copies of all designs; a file may have 200,000."""
MOST_MEETINGS: Final = 3_000_000
"""Pairs of stitches whose boxes meet, each with its neighbours among them: three for a stitch
that crosses none. What looks for gaps and crossings looks at each."""
MOST_RUNS: Final = 20_000
"""Of all copies of all designs."""

_OF_ROWS: Final = ("columns", "rows", "pitch", "area")
"""Keys that say where copies lie."""


def designs_are_sound(project: Project) -> Iterator[Fault]:
    """Areas of designs are shapes on their piece, and what is to be scaled has a width."""
    few = not any(corners_are_few(project))
    for path, design, piece in placed_designs(project):
        if few and design.area is not None:
            yield from shape_faults((*path, "area"), design.area, piece, project.units)
        if design.width is not None and design.file.size[0] < GRID_MM:
            yield no_width(path, "design", of="needle points", instead="sew")


def designs_are_on_their_piece(project: Project) -> Iterator[Fault]:
    """No copy is larger than its piece, and the middle of each lies on it.

    A part of a copy may be off the piece: a check tells by how much.
    """
    told = (corners_are_few, designs_are_sound, copies_of_designs_are_few)
    if any(fault for rule in told for fault in rule(project)):
        return  # said by those rules; this one would take too long
    unit = project.units
    for path, design, piece in placed_designs(project):
        middles, sides = place_copies(design, piece, free_box(project, piece))
        most = (piece.width, piece.length)
        if max(side - limit for side, limit in zip(sides, most, strict=True)) > 0:
            size, limits = (
                " x ".join(length_text(one, unit) for one in pair) for pair in (sides, most)
            )
            yield Fault(
                code="area-outside",
                path=(*path, "file"),
                message=f"the design is larger than the {piece.name}: {size}",
                label=f"must be at most {limits}",
                help="scale it by `width`, or turn it by `angle`",
            )
        elif (middles < 0).any() or (middles > most).any():
            yield Fault(
                code="area-outside",
                path=(*path, "at"),
                message=f"the middle of a copy lies outside the {piece.name}",
                label=f"must lie on the {piece.name}",
                notes=("places are measured from the piece's top left corner",),
                help="move it, or sew fewer columns and rows, or leave them out",
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


def stitches_meet_seldom(project: Project) -> Iterator[Fault]:
    """The stitches of all copies of all designs cross one another seldom enough.

    Two designs may lie on one another: as each meets itself, so they meet.
    """
    if any(copies_of_designs_are_few(project)):
        return
    known: dict[int, int] = {}
    met: list[tuple[float, Path]] = []
    for path, design, piece in placed_designs(project):
        own = known.get(id(design.file))
        if own is None:
            own = count_meetings([design.file.stitches.needle_points], most=MOST_MEETINGS)
            known[id(design.file)] = own
        met.append((own * count_copies(design, piece) * _laps(design), path))
    total = sum(math.sqrt(count) for count, _ in met) ** 2
    if total > MOST_MEETINGS:
        path = max(met)[1]
        yield Fault(
            code="too-many-places",
            path=(*path, "file"),
            message="the stitches of designs meet in more places than can be worked out",
            label=f"must come to at most about {MOST_MEETINGS:,}",
            notes=(f"most of them by `{key_path(path)}`",),
            help="sew fewer copies, farther apart, or a design with fewer stitches",
        )


def _laps(design: Design) -> float:
    """Return about how many copies lie on one another."""
    if design.repeat == "single" or design.pitch is None:
        return 1.0
    width, height = design.file.size
    scale = 1.0 if design.width is None else design.width / max(width, GRID_MM)
    across, down = design.pitch
    return float(max(1.0, scale * width / across) * max(1.0, scale * height / down))


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
