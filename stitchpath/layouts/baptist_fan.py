"""Baptist fan: quarter circles to thirds of circles, nested; each fan leans on the last one.

Construction: `count` arcs round a pin, `spacing` apart; the outermost has the radius R = count
x spacing. The next fan's pin stands at the foot of the last one's outermost arc, R to the left;
the next row's pins stand on the tops of the fans below, R higher. An arc stops where it meets a
fan that is there already: the one to the right, or those below. With t = radius / R it ends at
the angle acos(t / 2) from the right, so that the outermost spans a third of a circle and the
innermost not much more than a quarter, and begins at asin(t / 2) below the left, or, past the
valley between two fans below, 45 degrees - acos((t^2 + 1) / (2 sqrt 2 t)) below it.

Each row is one strand, from right to left: at the end of each arc it goes on to the next one
along the neighbour's outermost arc, which is so sewn twice; at the end of the outermost arc it
stands on the next pin. Rows start at a corner and go up: from the edge, the first pin stands in
the lower right corner; from the centre, a pin stands on the centre. As rows build on one
another there is no anchor. The widest gap is about `spacing`.

Source: pins and order: "Top Down or Bottom Up?", topanchorquilting.blogspot.com (2013), and
"Learning How to Make the Baptist Fan", quiltyfolk.blogspot.com (2014); that it is also sewn as
a continuous line by machine: dellajanehanddyes.blogspot.com (2012). That a row's pins stand on
the tops of the fans below, and that the way back lies on their arcs: common practice, no
source. Angles: geometry: elementary.
"""

from math import acos, asin, pi, sin, sqrt
from typing import Final

import numpy as np

from stitchpath.geometry.curves import arc_points
from stitchpath.geometry.points import Points
from stitchpath.layouts import _waves
from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.model.quilt import Quilting

DEFAULT_COUNT: Final = 5
"""Fans have 3 to 8 arcs: common practice, no source."""

_VALLEY: Final = 2 * sin(pi / 12)
"""How far the valley between two fans below is from a pin, in outermost radii: they meet 30
degrees down from their tops."""

_BELOW: Final = 1 - sqrt(3) / 2
"""How far that valley lies below the pins, in outermost radii."""


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return one strand to each row of fans, the lowest first."""
    radius = _radius(spec)
    across, down = (_pins(ground, spec, axis) for axis in (_waves.ACROSS, _waves.DOWN))
    left, right = _waves.extent(ground, _waves.ACROSS)
    top, bottom = _waves.extent(ground, _waves.DOWN)
    # a fan reaches from R left of its pin to R / 2 right of it, and up by R
    columns = across.covering(left - radius / 2, right + radius)
    row = _waves.shifted(
        _waves.tile(_fan(spec), (-radius, 0.0), len(columns)), across=across.at(columns[-1])
    )
    rows = down.covering(top - _BELOW * radius, bottom + radius)
    return tuple(
        Strand(points=_waves.shifted(row, down=down.at(index))) for index in reversed(rows)
    )


def _pins(ground: Ground, spec: Quilting, axis: _waves.Axis) -> _waves.Lattice:
    """Return the places of pins; from the edge, the first one is at the far end."""
    if spec.start == "edge":
        return _waves.Lattice(origin=float(ground.region.bounds[axis + 2]), step=_radius(spec))
    return _waves.find_lattice(ground, spec, _radius(spec), axis=axis, edge=_waves.ON_EDGE)


def _fan(spec: Quilting) -> Points:
    """Return a fan's line, from its pin at (0, 0) to the next pin at (-R, 0)."""
    radius, count = _radius(spec), _count(spec)
    parts: list[Points] = []
    for ring in range(1, count + 1):
        before, after = (ring - 1) / count, ring / count
        right, left = -acos(after / 2), -pi - _dip(after)
        # the outermost arc ends at the left, and they go to and fro
        if (count - ring) % 2 == 0:
            parts += [_up_right(radius, before, after), _arc(radius, after, right, left)]
        else:
            parts += [*_down_left(radius, before, after), _arc(radius, after, left, right)]
    return np.concatenate([parts[0][:1], *(part[1:] for part in parts)])


def _arc(radius: float, share: float, start: float, end: float) -> Points:
    return arc_points((0.0, 0.0), share * radius, start, end)


def _dip(share: float) -> float:
    """Return how far below the left an arc begins, as an angle round the pin."""
    if share <= _VALLEY:
        return asin(share / 2)
    return pi / 4 - acos((share**2 + 1) / (2 * sqrt(2) * share))


def _up_right(radius: float, before: float, after: float) -> Points:
    """Return the way between two distances from the pin, along the fan to the right."""
    angles = (2 * asin(share / 2) - pi for share in (before, after))
    return arc_points((radius, 0.0), radius, *angles)


def _down_left(radius: float, before: float, after: float) -> list[Points]:
    """Return the way between two distances from the pin, along the fans below."""
    ways: list[Points] = []
    if before < _VALLEY:
        angles = (-pi / 2 - 2 * asin(share / 2) for share in (before, min(after, _VALLEY)))
        ways.append(arc_points((0.0, radius), radius, *angles))
    if after > _VALLEY:
        angles = (
            -pi / 4 - acos((3 - share**2) / (2 * sqrt(2)))
            for share in (max(before, _VALLEY), after)
        )
        ways.append(arc_points((-radius, radius), radius, *angles))
    return ways


def _count(spec: Quilting) -> int:
    return spec.count or DEFAULT_COUNT


def _radius(spec: Quilting) -> float:
    return _count(spec) * spec.spacing


def _repeat(spec: Quilting) -> tuple[float, float]:
    return _waves.whole_steps(spec, _radius(spec), _radius(spec))


LAYOUT: Final = Layout(
    summary="fans of nested arcs that lean on one another, row on row",
    make=make,
    keys={"spacing": "20 mm, from arc to arc", "count": "5 arcs to a fan", "start": "centre"},
    repeat=_repeat,
    spacing_mm=20.0,
    density=evenly(1.5),
)
