"""A line that wanders over an area and never meets itself: the outline of a random tree.

Construction: the points inside a mesh are joined by a random tree along the mesh's edges; the
line goes round it, as a hand goes round a hedge. Wherever an edge of the mesh is not in the
tree, the line crosses it, near the points at both its ends; so it crosses no triangle but in
stretches that keep apart, and comes past every point of the area. Its corners are rounded by
parabolas from each stretch's middle to the next one's, tangent to both.

Source: a tree's outline visits all round it once, elementary; a quadratic spline by the middles
of its control polygon, elementary; the shares were measured on random areas, see the tests.
"""

from typing import Final

import numpy as np
import shapely

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import FLATNESS_MM, SAME_POINT_MM
from stitchpath.layouts._layout import Region
from stitchpath.layouts._mesh import Indices, Mesh, make_mesh
from stitchpath.layouts._tree import Flags, go_round, random_tree

PITCH: Final = 2.25
"""Edges of the mesh in spacings: two passes cross most of them."""
INSET: Final = 0.04
"""Kept clear inside the border, in spacings; what is narrower than twice that stays empty."""

_CROSSING: Final = 0.225  # of an edge: how far from its end the line crosses it
_SHORE: Final = 0.55  # of the spacing: how far from the border, at the most
_BEND: Final = 0.57  # of the way to a triangle's middle, where no side of it is in the tree
_ELBOW: Final = 0.23  # of the way to the far side, where two sides are
_BANK: Final = 0.36  # of the spacing: how far from a tree's edge along the border
_ROUNDING: Final = 0.5
"""Of a stretch, taken by the rounding at either end: nothing straight is left."""
_TRIES: Final = 5
_ROUNDS: Final = 12
"""Of halving that where the line meets itself; none are usual, one or two in narrow places."""


def wander(region: Region, *, spacing_mm: float, seed: int) -> list[Points]:
    """Return a closed line in each part of a region.

    Args:
        region: Valid, not empty.
        spacing_mm: About how far apart neighbouring passes lie, > 0.
        seed: Another number, another line.

    Returns:
        One line for each part that is left after its border is moved inwards by `INSET`; each
        ends on its first point.

    Cost: O(n log n) for n = area / spacing^2.
    """
    rng = np.random.Generator(np.random.PCG64(seed))
    return [
        line
        for domain in find_domains(region, spacing_mm)
        for line in _wander_in(domain, spacing_mm, rng)
    ]


def _wander_in(
    domain: shapely.Polygon, spacing_mm: float, rng: np.random.Generator
) -> list[Points]:
    """Return a closed line in a domain; another mesh where rounding found one too crooked."""
    lines: list[Points] = []
    for _ in range(_TRIES):
        mesh = make_mesh(domain, pitch_mm=PITCH * spacing_mm, rng=rng)
        is_tree = random_tree(mesh, rng)
        lines = [
            _rounded(_corners(mesh, is_tree, tour, spacing_mm), spacing_mm)
            for tour in go_round(mesh, is_tree)
        ]
        if len(lines) == 1 and _is_simple(lines[0]):
            return lines
    return [line for line in lines if _is_simple(line)]


def find_domains(region: Region, spacing_mm: float) -> list[shapely.Polygon]:
    """Return a region's parts: moved inwards, without tips and necks too narrow for a line."""
    inset = INSET * spacing_mm
    core = region.buffer(-2 * inset, join_style="mitre")
    inner = core.buffer(inset, quad_segs=2).simplify(inset / 2)
    return [part for part in shapely.get_parts(inner) if part.area > 0]


def _corners(mesh: Mesh, is_tree: Flags, tour: Indices, spacing_mm: float) -> Points:
    """Return the control polygon of the line along a tour.

    Each half-edge of the tour gives up to two corners: where the line crosses it, and one in
    the triangle after it.
    """
    share = _shares(mesh, tour, spacing_mm)
    tail, head = mesh.points[mesh.tail[tour]], mesh.points[mesh.head[tour]]
    crossing = tail + share[:, None] * (head - tail)
    in_tree = is_tree[tour]
    next_in_tree = np.roll(in_tree, -1)
    is_inside = ~(mesh.is_rim[mesh.head[tour]] | mesh.is_rim[mesh.apex[tour]])
    is_bend = ~in_tree & ~next_in_tree & ~is_tree[_next_side(tour, len(mesh.tail))] & is_inside
    far_side = mesh.apex[mesh.twin[tour]]
    is_elbow = in_tree & next_in_tree
    is_bank = in_tree & mesh.is_rim[far_side]
    inner = np.empty_like(crossing)
    bend = (head + mesh.points[mesh.apex[tour]] - 2 * tail) / 3
    inner[is_bend] = (tail + _BEND * bend)[is_bend]
    elbow = (tail + mesh.points[far_side]) / 2 - head
    inner[is_elbow] = (head + _ELBOW * elbow)[is_elbow]
    middle = (tail + head) / 2
    across = mesh.points[far_side] - middle
    bank = np.minimum(_mean_share(share), _BANK * spacing_mm / np.hypot(*across.T))
    inner[is_bank] = (middle + bank[:, None] * across)[is_bank]
    corners = np.stack([crossing, inner], axis=1)
    return corners[np.column_stack([~in_tree, is_bend | is_elbow | is_bank])]


def _shares(mesh: Mesh, tour: Indices, spacing_mm: float) -> Points:
    """Return at which share of each half-edge the line crosses it, shape (n,)."""
    length = np.hypot(*(mesh.points[mesh.head[tour]] - mesh.points[mesh.tail[tour]]).T)
    to_rim = np.maximum(0.5, 1 - _SHORE * spacing_mm / length)
    return np.where(mesh.is_rim[mesh.head[tour]], to_rim, _CROSSING)


def _mean_share(share: Points) -> Points:
    """Return where a straight line between the crossings before and after an edge would pass.

    It is the share of the way from the edge's middle to the triangle's third corner.
    """
    before, after = np.roll(share, 1), np.roll(share, -1)
    at = (1 - after) / (2 - before - after)
    return at * before + (1 - at) * after


def _next_side(side: Indices, count: int) -> Indices:
    """Return the side of the same triangle that begins where a half-edge ends."""
    return (side + count // 3) % count


def _rounded(corners: Points, spacing_mm: float) -> Points:
    """Return a closed line with its corners rounded, less so where it would meet itself."""
    share = np.full(len(corners), _ROUNDING)
    line = _spline(corners, share)
    for _ in range(_ROUNDS):
        if _is_simple(line):
            break
        near = np.hypot(*(corners - _meeting(line)).T) < spacing_mm
        share[near] /= 2
        line = _spline(corners, share)
    return line


def _is_simple(line: Points) -> bool:
    return bool(shapely.is_simple(shapely.LineString(line)))


def _meeting(line: Points) -> Points:
    """Return a place where a closed line meets itself."""
    said = shapely.is_valid_reason(shapely.Polygon(line))
    return np.array(said.partition("[")[2].rstrip("]").split(), dtype=np.float64)


def _spline(corners: Points, share: Points) -> Points:
    """Return parabolas round the corners of a closed polygon, joined by straight lines.

    Args:
        corners: Shape (n, 2), mm.
        share: How much of both stretches beside each corner its rounding takes, shape (n,).
    """
    part = share[:, None]
    before = corners + part * (np.roll(corners, 1, axis=0) - corners)
    after = corners + part * (np.roll(corners, -1, axis=0) - corners)
    sag = np.hypot(*(before - 2 * corners + after).T) / 4
    count = np.ceil(np.sqrt(sag / FLATNESS_MM)).clip(1).astype(np.intp) + 1
    owner = np.repeat(np.arange(len(corners)), count)
    first = np.cumsum(count) - count
    at = ((np.arange(len(owner)) - first[owner]) / (count - 1)[owner])[:, None]
    line = (1 - at) ** 2 * before[owner] + at**2 * after[owner]
    line += 2 * at * (1 - at) * corners[owner]
    line = np.concatenate([line, line[:1]])
    is_step = segment_lengths(line) > SAME_POINT_MM
    line = np.concatenate([line[:1], line[1:][is_step]])
    line[-1] = line[0]  # the closing step may have been among those left out
    return line
