"""Path data of SVG as curves, and curves as polylines within a tolerance.

Basic shapes are turned into the path data that SVG 2 ("basic shapes") says they are equal to;
the library svgelements reads path data and finds the centres of arcs.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import pairwise
from math import acos, ceil, sqrt
from types import MappingProxyType
from typing import Any, Final, TypeAlias

import numpy as np
from svgelements import Arc, Close, CubicBezier, Move, Path, QuadraticBezier
from svgelements.svgelements import SVGLexicalParser

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.project.svg_units import Matrix, Side, Units

FURTHEST_MM: Final = 100_000.0
"""No drawing for a quilt reaches 100 m; larger numbers are faults."""

_FURTHEST_CENTRE_MM: Final = 1e9
"""Of an arc that is all but straight; beyond it, doubles lose the micrometre."""
_FURTHEST_PLACE: Final = 1e12  # in user units; keeps squares finite
_FLATTEST: Final = 1e12
"""Ellipses narrower than their length by more are straight lines."""
_LOOKED_AT: Final = 8  # points of an arc
_LOOSE_POINT: Final = re.compile(r"(?<=\d)\.(?![\deE])")


@dataclass(frozen=True, slots=True, eq=False)
class Curve:
    """A straight line (2 control points), a Bezier curve (3 or 4) or an arc of an ellipse.

    Attributes:
        points: Control points, shape (n, 2); of an arc its centre, the ends of two conjugate
            half axes seen from the centre, and its own end.
        start: Of an arc, where on the ellipse it begins: centre + cos . first + sin . second.
        sweep: Of an arc, how far it goes; None for the other curves.
    """

    points: Points
    start: float = 0.0
    sweep: float | None = None

    def seen(self, matrix: Matrix) -> "Curve":
        """Return the curve after an affine map."""
        turned = self.points @ matrix[:2, :2].T
        moved = turned + matrix[:2, 2]
        if self.sweep is not None:
            moved[1:3] = turned[1:3]  # half axes are directions
        return Curve(moved, self.start, self.sweep)

    def corners(self) -> Points:
        """Return points that tell how far the curve reaches."""
        return self.points if self.sweep is None else self.flattened(_LOOKED_AT)

    def chords(self, flatness: float) -> int:
        """Return how many chords keep within a flatness.

        A chord over a step h of the parameter is off by at most h^2 / 8 . max |second
        derivative|; for a Bezier curve the maximum is that of its control points' second
        differences, times n (n - 1). On an ellipse a chord is off by at most as much as on the
        circle of its longer half axis, r (1 - cos(h / 2)). Geometry, elementary.
        """
        if self.sweep is not None:
            longest = float(np.linalg.svd(self.points[1:3], compute_uv=False)[0])
            step = 2 * acos(max(1 - flatness / longest, 0.0)) if longest > flatness else 2.0
            return ceil(abs(self.sweep) / max(step, 1e-9)) or 1
        degree = len(self.points) - 1
        if degree == 1:
            return 1
        bend = np.hypot(*np.diff(self.points, n=2, axis=0).T).max() * degree * (degree - 1)
        return ceil(sqrt(bend / (8 * flatness))) or 1

    def flattened(self, count: int) -> Points:
        """Return points on the curve after its start, the last one its exact end."""
        if count == 1:
            return self.points[-1:]
        step = np.linspace(0.0, 1.0, count + 1)[1:, None]
        if self.sweep is not None:
            angle = self.start + self.sweep * step
            centre, first, second = self.points[:3]
            places: Points = centre + np.cos(angle) * first + np.sin(angle) * second
        else:
            levels = [np.broadcast_to(point, (count, 2)) for point in self.points]
            while len(levels) > 1:  # de Casteljau
                levels = [a + (b - a) * step for a, b in pairwise(levels)]
            places = np.array(levels[0])
        places[-1] = self.points[-1]
        return places


@dataclass(frozen=True, slots=True, eq=False)
class Stroke:
    """A subpath: where it begins, its curves, and whether it is closed."""

    start: Points
    curves: tuple[Curve, ...]
    closed: bool

    def seen(self, matrix: Matrix) -> "Stroke":
        """Return the stroke after an affine map.

        Raises:
            ValueError: It reaches further than anything real.
        """
        curves = tuple(curve.seen(matrix) for curve in self.curves)
        start = self.start @ matrix[:2, :2].T + matrix[:2, 2]
        corners = np.concatenate([start[None], *(curve.points for curve in curves)])
        if not (np.abs(corners) <= _FURTHEST_CENTRE_MM).all():  # NaN is not
            raise _too_far()
        return Stroke(start, curves, self.closed)


_SIDES: Final[Mapping[str, Side]] = MappingProxyType({
    "y": "down", "cy": "down", "ry": "down", "y1": "down", "y2": "down", "height": "down",
    "r": "other",
})  # fmt: skip
_Values: TypeAlias = Callable[[str], float]


def shape_data(tag: str, attributes: dict[str, str], units: Units) -> str:
    """Return the path data of a shape; empty for one that SVG does not draw.

    Raises:
        ValueError: A size cannot be read.
    """
    if tag == "path":
        return attributes.get("d", "")
    if tag in {"polyline", "polygon"}:
        points = attributes.get("points", "").strip()
        return f"M{points}{'Z' if tag == 'polygon' else ''}" if points else ""

    def value(name: str) -> float:
        return units.read(attributes.get(name, "0"), _SIDES.get(name, "across"))

    if tag == "line":
        return f"M{value('x1')!r},{value('y1')!r}L{value('x2')!r},{value('y2')!r}"
    return _rectangle(value, attributes) if tag == "rect" else _ellipse(value, attributes)


def _ellipse(value: _Values, attributes: dict[str, str]) -> str:
    across, down = (value("r"),) * 2 if "r" in attributes else (value("rx"), value("ry"))
    x, y = value("cx"), value("cy")
    if not (across > 0 and down > 0):
        return ""
    arc = f"A{across!r},{down!r},0,0,1,"
    ends = ((x, y + down), (x - across, y), (x, y - down), (x + across, y))
    return f"M{x + across!r},{y!r}{''.join(f'{arc}{a!r},{b!r}' for a, b in ends)}Z"


def _rectangle(value: _Values, attributes: dict[str, str]) -> str:
    x, y, width, height = value("x"), value("y"), value("width"), value("height")
    if not (width > 0 and height > 0):
        return ""
    given = [value(name) for name in ("rx", "ry") if attributes.get(name, "auto") != "auto"]
    across, down = (given[0], given[-1]) if given else (0.0, 0.0)
    across, down = min(across, width / 2), min(down, height / 2)
    if not (across > 0 and down > 0):
        return f"M{x!r},{y!r}H{x + width!r}V{y + height!r}H{x!r}Z"
    arc = f"A{across!r},{down!r},0,0,1,"
    right, bottom = x + width, y + height
    return (
        f"M{x + across!r},{y!r}H{right - across!r}{arc}{right!r},{y + down!r}"
        f"V{bottom - down!r}{arc}{right - across!r},{bottom!r}"
        f"H{x + across!r}{arc}{x!r},{bottom - down!r}V{y + down!r}{arc}{x + across!r},{y!r}Z"
    )


def read_path(data: str) -> tuple[Stroke, ...]:
    """Return the strokes of path data, in the order in which they are drawn.

    Raises:
        ValueError: It is no path data of SVG; the message says how far it can be read.
    """
    plain = _LOOSE_POINT.sub(" ", data).strip()
    if plain and plain[0] not in "Mm":
        raise ValueError("path data in the file does not begin with `M`")
    path, lexer = Path(), SVGLexicalParser()
    try:
        lexer.parse(path, plain)
        segments = list(path)
    except (ValueError, TypeError, AttributeError, ArithmeticError, IndexError) as fault:
        raise _unreadable(plain, lexer.pos) from fault
    if lexer.pos < lexer.limit:
        raise _unreadable(plain, lexer.pos)
    return tuple(_strokes(segments))


def _strokes(segments: list[Any]) -> list[Stroke]:
    strokes: list[Stroke] = []
    start, curves = np.zeros(2), list[Curve]()
    for segment in segments:
        if not isinstance(segment, Move | Close):
            curves.append(_curve(segment))
            continue
        if curves:
            strokes.append(Stroke(start, tuple(curves), isinstance(segment, Close)))
        start, curves = _point(segment.end), []
    return [*strokes, Stroke(start, tuple(curves), closed=False)] if curves else strokes


def _curve(segment: Any) -> Curve:  # noqa: ANN401 - a segment of the library's
    start, end = _point(segment.start), _point(segment.end)
    if isinstance(segment, QuadraticBezier):
        return Curve(np.array([start, _point(segment.control), end]))
    if isinstance(segment, CubicBezier):
        controls = _point(segment.control1), _point(segment.control2)
        return Curve(np.array([start, *controls, end]))
    if isinstance(segment, Arc) and segment.sweep:
        centre = _point(segment.center)
        axes = np.array([_point(segment.prx) - centre, _point(segment.pry) - centre])
        if np.linalg.cond(axes) < _FLATTEST:
            cos, sin = np.linalg.solve(axes.T, start - centre)
            begins = float(np.arctan2(sin, cos))
            return Curve(np.array([centre, *axes, end]), begins, float(segment.sweep))
    return Curve(np.array([start, end]))


def _point(point: Any) -> Points:  # noqa: ANN401 - a point of the library's
    place = np.array([point.x, point.y], dtype=np.float64)
    if not (np.abs(place) <= _FURTHEST_PLACE).all():  # NaN is not
        raise _too_far()
    return place


def _too_far() -> ValueError:
    return ValueError(f"the drawing reaches further than {FURTHEST_MM:,.0f} mm (100 m)")


def _unreadable(data: str, place: int) -> ValueError:
    start = max(min(place, len(data)) - 10, 0)
    return ValueError(f"path data in the file cannot be read near `{data[start : start + 30]}`")


def flatten(stroke: Stroke, flatness: float, most: int) -> Points:
    """Return a stroke as a polyline without equal neighbours; a closed one ends where it began.

    Args:
        stroke: In mm.
        flatness: How far a chord may be from its curve, mm, > 0.
        most: Points that it may have.

    Raises:
        ValueError: It would have more.
    """
    counts = [curve.chords(flatness) for curve in stroke.curves]
    if sum(counts) > most:
        raise ValueError("the drawing comes to too many points")
    parts = [curve.flattened(count) for curve, count in zip(stroke.curves, counts, strict=True)]
    points = np.concatenate(
        [stroke.start[None], *parts, *([stroke.start[None]] * stroke.closed)]
    )
    moved = np.abs(np.diff(points, axis=0)).max(axis=1) > SAME_POINT_MM
    points = np.array(points[np.concatenate([[True], moved])])
    if np.abs(points[-1] - points[0]).max() <= SAME_POINT_MM:
        points[-1] = points[0]
    if np.abs(points).max() > FURTHEST_MM:
        raise _too_far()
    return points
