"""Random regions with holes, and how far from lines a place in them can be."""

import numpy as np
import shapely
from hypothesis import strategies as st
from scipy.spatial import KDTree
from shapely.affinity import translate

from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Region


def ground_of(region: Region) -> Ground:
    """Return a ground whose frame is the region's box."""
    return Ground(region=region, frame=region.bounds)


@st.composite
def _stars(draw: st.DrawFn, *, size: float, least: float) -> shapely.Polygon:
    """Return a polygon round 0, 0 whose corners lie between a share of a size and the size."""
    count = draw(st.integers(3, 12))
    share = st.floats(0, 1, allow_subnormal=False)
    step = 2 * np.pi / count
    turn = [step * (at + 0.8 * draw(share)) for at in range(count)]
    reach = [size * (least + (1 - least) * draw(share)) for _ in range(count)]
    return shapely.Polygon(np.column_stack([reach * np.cos(turn), reach * np.sin(turn)]))


@st.composite
def regions(draw: st.DrawFn) -> Region:
    """Return a star 50 to 240 mm across with up to three stars cut out, some corners rounded.

    Spikes, necks, several parts, and holes that touch each other or the border are among them.
    """
    size = draw(st.floats(25, 120))
    region: shapely.Geometry = draw(_stars(size=size, least=draw(st.sampled_from([0.15, 0.6]))))
    for _ in range(draw(st.integers(0, 3))):
        hole = draw(_stars(size=size * draw(st.floats(0.02, 0.3)), least=0.4))
        across, down = (draw(st.floats(-0.5, 0.5)) * size for _ in range(2))
        region = shapely.difference(region, translate(hole, across, down))
    if draw(st.booleans()):
        region = shapely.buffer(region, size * 0.03, quad_segs=6)
    parts = [part for part in shapely.get_parts(region) if part.area > 1]
    return parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)


def roomy_part(region: Region, across_mm: float) -> shapely.Polygon | None:
    """Return the largest part that a circle of a diameter can roll over, or None."""
    cores = shapely.get_parts(region.buffer(-across_mm / 2))
    core = max(cores, key=shapely.area, default=None)
    return None if core is None or core.is_empty else core.buffer(across_mm / 2, quad_segs=16)


def farthest_mm(region: Region, lines: list[Points], *, step_mm: float) -> float:
    """Return how far from the lines the farthest place of a region is, border included.

    Looked for on a grid and along the border, so the true distance is up to 0.71 steps more;
    lines are taken as places 1/4 step apart, so it is over by at most 0.01 steps where it is
    more than a step.
    """
    left, top, right, bottom = region.bounds
    axes = np.arange(left, right, step_mm), np.arange(top, bottom, step_mm)
    grid = np.stack(np.meshgrid(*axes), axis=-1).reshape(-1, 2)
    shapely.prepare(region)
    places = [grid[shapely.contains_xy(region, grid)], _dense(region, step_mm)]
    on_lines = [_dense(shapely.LineString(line), step_mm / 4) for line in lines]
    distance, _ = KDTree(np.concatenate(on_lines)).query(np.concatenate(places))
    return float(distance.max())


def _dense(geometry: shapely.Geometry, step_mm: float) -> Points:
    return shapely.get_coordinates(shapely.segmentize(geometry, step_mm))
