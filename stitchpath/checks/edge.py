"""Does the needle keep to the cloth?

Measure: how far each needle point lies outside or inside the piece's finished edge, and inside
the pocket's edge where the pocket is sewn on. Outside the edge there is nothing to sew. Nearer
than 1.5 mm to a turned edge the needle may slip off the fold or fray it (common practice, no
source): stitches along it, to a slope of one in four, are warned of; others are noted. A bound
edge hides what lies beside it.

Limits: pieces are rectangles, and edges are where they were planned; cloth gives by more than
that.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, extremes, parts_of
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.units import Unit, format_length, number_of

CODE = "edge"
NEAR_MM: Final = 1.5
LEVEL: Final = 0.25
_Edge: TypeAlias = Literal["finished edge", "pocket's edge"]
_HELP: Final[dict[_Edge, str]] = {
    "finished edge": "give the quilting a margin, or the piece a line inside its edge",
    "pocket's edge": "give the seam a larger inset",
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Rims:
    """How far inside an edge the two ends of each stitch lie, shape (k, 2), mm; and where."""

    inside: NDArray[np.float64]
    places: Points
    edge: _Edge


def check(plan: Plan) -> Iterator[Finding]:
    """Point at needle points off the piece, and at stitches beside a turned edge."""
    project = plan.project
    for stage in plan.stages:
        outline = stage.piece.outline
        rims = _rims(stage, outline)
        yield from _off(stage, rims, project.units)
        if stage.piece.shadow is not None and stage.name == "seam":
            yield from _near(stage, _rims(stage, stage.piece.shadow))
        if stage.piece.name == "pocket" or project.quilt.edge == "turned":
            yield from _near(stage, rims)


def _rims(stage: Stage, outline: Points) -> _Rims:
    """Return the stitches of which one end lies near an edge or beyond."""
    parts = [np.empty((0, 2, 2)), *(_near_edge(one, outline) for one in stage.hoopings)]
    places = np.concatenate(parts)
    own = outline is stage.piece.outline
    return _Rims(
        inside=_inside(places, outline),
        places=places,
        edge="finished edge" if own else "pocket's edge",
    )


def _near_edge(sewn: SewnHooping, outline: Points) -> NDArray[np.float64]:
    stitches = sewn.stitches
    near = np.zeros(len(stitches), dtype=np.bool_)
    for part in parts_of(len(stitches)):
        near[part] = _inside(stitches.xy[part], outline) < NEAR_MM
    if not near.any():
        return np.empty((0, 2, 2))
    found = [
        rows[near[rows[:, 0]] | near[rows[:, 1]]] for rows in stitches.parts_of_stitch_rows()
    ]
    return np.asarray(stitches.xy[np.concatenate(found)])


def _inside(places: NDArray[np.float64], outline: Points) -> NDArray[np.float64]:
    """Return how far inside the box of an outline places lie; negative outside."""
    low, high = extremes(outline)
    inside = np.minimum(places - low, high - places)
    return np.asarray(np.minimum(inside[..., 0], inside[..., 1]))


def _off(stage: Stage, rims: _Rims, unit: Unit) -> Iterator[Finding]:
    off = rims.inside[:, 1] < -GRID_MM
    if off.any():
        worst = int(rims.inside[:, 1].argmin())
        out = float(-rims.inside[worst, 1])
        yield Finding(
            code=CODE,
            level=Level.ERROR,
            text=f"{number_of(int(off.sum()), 'needle point lies', 'needle points lie')} off "
            f"the {stage.piece.name}, up to {format_length(out, unit)} outside its edge, "
            "where 0 is allowed",
            help="keep lines, drawings and designs inside the finished edge",
            stage=stage.name,
            where=_place(rims.places[worst, 1]),
            value=out,
            limit=0.0,
        )


def _near(stage: Stage, rims: _Rims) -> Iterator[Finding]:
    near = (rims.inside >= -GRID_MM) & (rims.inside < NEAR_MM)
    along = np.flatnonzero(near.all(axis=1) & _is_level(rims))
    ends = np.flatnonzero(near.any(axis=1))
    if not len(ends):
        return
    rows = along if len(along) else ends
    worst = int(rows[rims.inside[rows].min(axis=1).argmin()])
    least = max(float(rims.inside[worst].min()), 0.0)
    run = (
        number_of(len(along), "stitch runs", "stitches run")
        if len(along)
        else number_of(len(ends), "stitch ends", "stitches end")
    )
    yield Finding(
        code=CODE,
        level=Level.WARNING if len(along) else Level.NOTE,
        text=f"{run} nearer than {NEAR_MM:g} mm to the {rims.edge}, the nearest {least:.1f} mm "
        "from it: the needle may slip off the fold",
        help=_HELP[rims.edge],
        stage=stage.name,
        where=_place(rims.places[worst, int(rims.inside[worst].argmin())]),
        value=least,
        limit=NEAR_MM,
    )


def _is_level(rims: _Rims) -> NDArray[np.bool_]:
    """Return which stitches go along the edge rather than towards it."""
    across = np.abs(rims.inside[:, 1] - rims.inside[:, 0])
    lengths = np.hypot(*(rims.places[:, 1] - rims.places[:, 0]).T)
    return np.asarray(across <= LEVEL * lengths)


def _place(point: Points) -> tuple[float, float]:
    x, y = point.tolist()
    return x, y
