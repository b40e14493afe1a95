"""Piano keys: short parallel bars square to a border.

Construction: keys are as nearly `spacing` wide as a whole number of them allows. On a border
(an area of `border`) whole keys lie along each side between the corners, with a bar at each
inner corner, and whole keys in each corner. The corners are mitred: a line runs from the outer
to the inner corner, and bars of both sides end on it in the same points.

On any other area, bars run square to its long side, between whole keys; the one nearest to the
middle is the anchor. The long side is that of the area's upright box, or of the narrowest box
around it where that is smaller by a tenth: so bars stand square on a slanting strip too.
`angle`, `start` and `fit` have nothing to do here.

Source: itsatsweetsday.blog, "Piano Key Border Tutorial", and abyquilts.wordpress.com, "Mitered
Corners for Piano Key Borders": the mitred corner; kay-mntopquilting.blogspot.com, "Piano key
border" (2007): the key's width is found from the border's length. The rest is elementary.
"""

from math import atan2, degrees
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.families import extent_across
from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.layouts._groups import place_strands
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting

_CLEARLY_SMALLER: Final = 0.9


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return mitres and bars round a border, or bars along a strip."""
    if ground.border_mm is None:
        angle = _short_way_deg(ground)
        low, high = extent_across(ground.region, angle)
        return place_strands(ground, _between_keys(low, high, spec.spacing), angle_deg=angle)
    left, top, right, bottom = ground.frame
    band = _band_mm(ground, ground.border_mm)
    sides = [
        *_bars((left, right), (top, bottom), band, spec.spacing),
        *(bar[:, ::-1] for bar in _bars((top, bottom), (left, right), band, spec.spacing)),
    ]
    return tuple(Strand(points=line) for line in (*_mitres(ground.frame, band), *sides))


def _between_keys(low: float, high: float, spacing: float) -> NDArray[np.float64]:
    """Return where bars lie between whole keys, the ends of the row left out."""
    keys = max(1, round((high - low) / spacing))
    return np.linspace(low, high, keys + 1)[1:-1]


def _bars(
    row: tuple[float, float], edges: tuple[float, float], band: float, spacing: float
) -> list[Points]:
    """Return the bars of two opposite sides, each from the outer edge inwards.

    Args:
        row: Where the sides begin and end, along themselves.
        edges: Where their outer edges lie, across.
        band: The border's width, mm.
        spacing: Width of a key, mm.

    Returns:
        Bars of shape (2, 2), the first column along the side.
    """
    low, high = row
    inner = low + band, high - band
    corner = _between_keys(low, inner[0], spacing)
    middle = _between_keys(*inner, spacing)
    at = np.unique([*corner, inner[0], *middle, inner[1], *(low + high - corner)])
    depth = np.minimum(band, np.minimum(at - low, high - at))
    return [
        np.array([[place, edge], [place, edge + way * deep]])
        for edge, way in zip(edges, (1, -1), strict=True)
        for place, deep in zip(at.tolist(), depth.tolist(), strict=True)
    ]


def _mitres(frame: tuple[float, float, float, float], band: float) -> list[Points]:
    """Return the four lines from an outer corner to the inner one, clockwise."""
    left, top, right, bottom = frame
    corners = ((left, top, 1, 1), (right, top, -1, 1), (right, bottom, -1, -1))
    return [
        np.array([[x, y], [x + across * band, y + down * band]])
        for x, y, across, down in (*corners, (left, bottom, 1, -1))
    ]


def _band_mm(ground: Ground, border_mm: float) -> float:
    """Return how wide the border is from the frame to its hole, which a margin widens."""
    left, top, right, bottom = ground.frame
    middle = shapely.Point(ground.centre)
    holes = (hole for part in shapely.get_parts(ground.region) for hole in part.interiors)
    wide = border_mm
    for hole in holes:
        if shapely.Polygon(hole).covers(middle):
            x0, y0, x1, y1 = hole.bounds
            wide = max(x0 - left, right - x1, y0 - top, bottom - y1)
    return min(wide, border_mm, (right - left) / 2, (bottom - top) / 2)


def _short_way_deg(ground: Ground) -> float:
    """Return the direction square to the long side."""
    left, top, right, bottom = ground.region.bounds
    box = shapely.oriented_envelope(ground.region)
    if box.area > _CLEARLY_SMALLER * (right - left) * (bottom - top):
        return 90.0 if right - left >= bottom - top else 0.0
    corners = shapely.get_coordinates(box)[:3]
    start = int(np.argmin(segment_lengths(corners)))
    x, y = (corners[start + 1] - corners[start]).tolist()
    return degrees(atan2(y, x))


LAYOUT: Final = Layout(
    summary="short bars square to a border, mitred at its corners",
    make=make,
    keys={"spacing": "75 mm, as nearly as whole keys allow"},
    repeat=lambda _: (0.0, 0.0),
    turns=False,
    is_straight=True,
)
