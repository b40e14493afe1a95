"""Matchstick quilting: parallel lines a matchstick apart, deliberately uneven.

Construction: straight lines across the width, turned by `angle`; the distance from each to the
next is drawn evenly between 2/3 and 4/3 of `spacing`, so 3 to 6 mm where it is 4.5 mm.
Distances are drawn outwards from the line through the middle, or from the one on the upper
edge, so that the same `seed` lays the same lines on a larger piece. The line nearest to the
middle is the anchor. Source: quiltadvice.com, "What is matchstick quilting?": lines 1/8 to 1/4
in apart, better not perfectly spaced; the even draw is a choice of this tool.
"""

from math import ceil
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.families import extent_across
from stitchpath.layouts._groups import origin_of, place_strands
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting

MEAN_MM: Final = 4.5
UNEVEN: Final = 1 / 3


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return uneven strands across the width."""
    _, origin = origin_of(ground, spec)
    low, high = extent_across(ground.region, 0.0)
    reach = max(high - origin, origin - low)
    draws = np.random.Generator(np.random.PCG64(spec.seed))
    return place_strands(ground, _places(origin, reach, spec.spacing, draws), angle_deg=0.0)


def _places(
    origin: float, reach: float, mean: float, draws: np.random.Generator
) -> NDArray[np.float64]:
    """Return ascending places on both sides of an origin, at least as far as `reach`."""
    rows = ceil(reach / (mean * (1 - UNEVEN))) + 1
    gaps = mean * draws.uniform(1 - UNEVEN, 1 + UNEVEN, size=(rows, 2))
    after, before = np.cumsum(gaps, axis=0).T
    return np.concatenate([origin - before[::-1], [origin], origin + after])


LAYOUT: Final = Layout(
    summary="many straight lines close together, deliberately uneven",
    make=make,
    keys={
        "spacing": "4.5 mm on average, each 2/3 to 4/3 of it",
        "seed": "1",
        "start": "centre",
    },
    spacing_mm=MEAN_MM,
    is_straight=True,
)
