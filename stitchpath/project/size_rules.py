"""Rules that keep the work finite: refused before it is begun, not while it explodes."""

import math
from collections.abc import Iterator
from typing import Final

from stitchpath.model.project import Pocket, Project, Quilt
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.wording import exact_text

MOST_STITCHES: Final = 10_000_000
"""Twenty-five times a king-size quilt in half-inch squares at 3 mm (about 400,000)."""

MOST_HOOPINGS: Final = 2_000
"""Of one piece; a king-size quilt in a field of 100 x 100 mm takes about 850."""

_CROSSED: Final = 2
"""A layout of two crossing sets has twice the lines of one; the estimate takes the larger."""


def stitches_are_few(project: Project) -> Iterator[Fault]:
    """The quilting of both pieces together comes to fewer needle points than the limit."""
    estimates: list[tuple[float, Path]] = []
    for piece in _pieces(project):
        for number, quilting in enumerate(piece.quilting):
            points = _CROSSED * piece.width * piece.length
            points /= quilting.spacing * quilting.stitch_length
            estimates.append((points, (_name(piece), "quilting", number, "spacing")))
    total = sum(points for points, _ in estimates)
    if total <= MOST_STITCHES:
        return
    path = max(estimates, key=lambda estimate: estimate[0])[1]
    yield Fault(
        code="too-many-stitches",
        path=path,
        message=f"the quilting comes to about {_rounded(total)} needle points",
        label=f"must come to at most {MOST_STITCHES:,}",
        notes=(f"most of them by `{key_path(path)}`",),
        help="make the spacing or the stitch length larger, or the piece smaller",
    )


def hoopings_are_few(project: Project) -> Iterator[Fault]:
    """Each piece takes fewer hoopings than the limit."""
    overlap, unit = project.hoopings.overlap, project.units
    steps = [side - overlap for side in project.machine.field]
    if min(steps) <= 0:
        return  # said by another rule
    for piece in _pieces(project):
        count = math.ceil(piece.width * piece.length / (steps[0] * steps[1]))
        if count > MOST_HOOPINGS:
            field = " x ".join(exact_text(side, unit) for side in project.machine.field)
            yield Fault(
                code="too-many-hoopings",
                path=("machine", "field"),
                message=f"the {_name(piece)} would take about {_rounded(count)} hoopings",
                label=f"must come to at most {MOST_HOOPINGS:,}",
                notes=(f"the field is {field}, joined with an overlap",),
                help="choose a larger field or a smaller overlap",
            )


def _pieces(project: Project) -> list[Quilt | Pocket]:
    return [project.quilt, *([project.pocket] if project.pocket is not None else [])]


def _name(piece: Quilt | Pocket) -> str:
    return "quilt" if isinstance(piece, Quilt) else "pocket"


def _rounded(count: float) -> str:
    """Return a count to two figures: an estimate that does not look like more."""
    digits = max(len(str(math.floor(count))) - 2, 0)
    return f"{round(count, -digits):,.0f}"
