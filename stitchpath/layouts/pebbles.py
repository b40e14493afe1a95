"""Pebbles: packed rounds of uneven size, sewn without stopping.

Construction: circles packed so that each touches the one it was grown from (see `_packing`);
`spacing` is their mean diameter where there is room. The line goes once round each circle, and
at every touching point into the next one and back, so no stretch is sewn twice. By hand a
pebble is often gone round twice to get to the next; the needle here need not. Source: from
memory.
"""

from collections import defaultdict
from typing import Final

import numpy as np

from stitchpath.geometry.curves import arc_points
from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.layouts._packing import Packing, pack_circles
from stitchpath.layouts._rings import close_ring
from stitchpath.model.quilt import Quilting

SPACING_MM: Final = 18.0
"""About the size of a thumbnail; pebbles are drawn from pea-size upwards (from memory)."""


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return a closed strand for each heap of circles that touch."""
    rng = np.random.Generator(np.random.PCG64(spec.seed))
    packing = pack_circles(ground.region, spacing_mm=spec.spacing, rng=rng)
    children: dict[int, list[int]] = defaultdict(list)
    for number, parent in enumerate(packing.parents):
        children[parent].append(number)
    return tuple(Strand(points=_round(packing, children, first)) for first in children[-1])


def _round(packing: Packing, children: dict[int, list[int]], first: int) -> Points:
    """Return the way round a heap: each circle once, others from where they touch it."""
    parts: list[Points] = []
    ways = [(first, 0.0, _stops(packing, children, first, 0.0))]
    while ways:
        number, angle, stops = ways.pop()
        until, child = stops.pop(0)
        x, y, radius = packing.circles[number]
        if until > angle:
            parts.append(arc_points((x, y), radius, angle, until))
        if child is not None:
            ways.append((number, until, stops))
            ways.append((child, until + np.pi, _stops(packing, children, child, until + np.pi)))
    return close_ring(np.concatenate(parts), least_mm=_SAME_MM)


_SAME_MM: Final = 1e-4  # arcs end on a touching point within this


def _stops(
    packing: Packing, children: dict[int, list[int]], number: int, start: float
) -> list[tuple[float, int | None]]:
    """Return where to leave a circle for another one, by angle from `start`, and its end."""
    x, y, _ = packing.circles[number]
    stops: list[tuple[float, int | None]] = []
    for child in children[number]:
        toward = np.arctan2(packing.circles[child][1] - y, packing.circles[child][0] - x)
        stops.append((start + float((toward - start) % (2 * np.pi)), child))
    return [*sorted(stops, key=lambda stop: stop[0]), (start + 2 * np.pi, None)]


LAYOUT: Final = Layout(
    summary="packed rounds of uneven size, sewn as one line",
    make=make,
    keys={"spacing": "18 mm, the mean width of a pebble", "seed": "1"},
    spacing_mm=SPACING_MM,
    density=evenly(3.6),
)
