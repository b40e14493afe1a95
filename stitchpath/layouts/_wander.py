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

from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import FLATNESS_MM, SAME_POINT_MM, SHARP_TURN_DEG
from stitchpath.layouts._layout import Region
from stitchpath.layouts._mesh import Mesh, make_mesh
from stitchpath.layouts._rings import close_ring
from stitchpath.layouts._tree import go_round, random_tree
from stitchpath.layouts._triangles import Flags, Indices

PITCH: Final = 2.22
"""Edges of the mesh in spacings: two passes cross most of them."""
INSET: Final = 0.04
"""Kept clear inside the border, in spacings; what is narrower than twice that stays empty."""

_CROSSING: Final = 0.225  # of an edge: how far from its end the line crosses it
_SHORE: Final = 0.55  # of the spacing: how far from the border, at the most
_BEND: Final = 0.57  # of the way to a triangle's middle, where no side of it is in the tree
_ELBOW: Final = 0.23  # of the way to the far side, where two sides are
_BANK: Final = 0.36  # of the spacing: how far from a tree's edge along the border
_FINE: Final = 0.5  # of the spacing: zigzags with shorter steps are evened out
_LEAST_STEPS: Final = 40  # to a line: longer ones of a short line are not evened out
_LEAST: Final = 0.01  # of that: corners nearer to the next are left out
_EVENINGS: Final = 4
_FOLD: Final = np.cos(np.radians(20))  # of the angle in a corner that is a fold
_BLUNT: Final = 0.03  # of the spacing: half of how wide a fold's tip is made
_ROUNDING: Final = 0.5
"""Of a stretch, taken by the rounding at either end: nothing straight is left."""
_TURN: Final = np.radians(SHARP_TURN_DEG) * 0.6
"""Between two chords of a rounding, so that none is taken for a corner."""
_MOST_PIECES: Final = 60
_TRIES: Final = 5
"""Meshes for a line; one is usual; of 1,500 crooked areas three took two."""
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
    """Return a closed line in a domain; from another mesh where one is too crooked to round."""
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
    core = region.buffer(-2 * inset, quad_segs=2)
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
    is_bend = ~in_tree & ~next_in_tree & ~is_tree[mesh.side_after(tour)] & is_inside
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
    corners = corners[np.column_stack([~in_tree, is_bend | is_elbow | is_bank])]
    fine = min(_FINE * spacing_mm, path_length(corners) / _LEAST_STEPS)
    return _blunted(_evened(corners, fine), _BLUNT * fine / _FINE)


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


def _evened(corners: Points, fine_mm: float) -> Points:
    """Return a closed polygon without its finest zigzags.

    Each corner is moved towards the middle between its neighbours, less so the farther they
    are, and not at all where one is farther than `fine_mm`.
    """
    for _ in range(_EVENINGS):
        before, after = np.roll(corners, 1, axis=0), np.roll(corners, -1, axis=0)
        reach = np.maximum(np.hypot(*(corners - before).T), np.hypot(*(corners - after).T))
        share = np.clip(1 - reach / fine_mm, 0, 1)[:, None] / 2
        corners = corners + share * ((before + after) / 2 - corners)
    return close_ring(corners, least_mm=_LEAST * fine_mm)[:-1]


def _blunted(corners: Points, half_mm: float) -> Points:
    """Return a closed polygon with two corners where one turns back on itself.

    The tip of a fold without a width would be sewn as two stitches in one place.
    """
    before, after = (
        np.roll(corners, 1, axis=0) - corners,
        np.roll(corners, -1, axis=0) - corners,
    )
    lengths = np.hypot(*before.T) * np.hypot(*after.T)
    is_fold = (before * after).sum(axis=1) > _FOLD * lengths
    aside = np.zeros_like(corners)
    across = (before + after)[is_fold][:, ::-1] * (-1, 1)
    across /= np.hypot(*across.T)[:, None]
    side = np.sign((across * (before - after)[is_fold]).sum(axis=1))[:, None]
    aside[is_fold] = half_mm * np.where(side == 0, 1, side) * across
    both = np.stack([corners + aside, corners - aside], axis=1)
    return np.asarray(both[np.column_stack([np.ones(len(corners), np.bool_), is_fold])])


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
    count = _pieces(corners - before, after - corners) + 1
    owner = np.repeat(np.arange(len(corners)), count)
    first = np.cumsum(count) - count
    at = ((np.arange(len(owner)) - first[owner]) / (count - 1)[owner])[:, None]
    line = (1 - at) ** 2 * before[owner] + at**2 * after[owner]
    line += 2 * at * (1 - at) * corners[owner]
    return close_ring(line, least_mm=FLATNESS_MM / 2)


def _pieces(first: Points, last: Points) -> Indices:
    """Return into how many chords each parabola is parted, from its first and last tangent.

    Halfway between its ends a parabola is |last - first| / 4 off their chord, and a part of it
    less by the square of their number. Its tangent at a share t is first + t (last - first),
    and turns by |first x last| / |tangent|^2.
    """
    change = last - first
    square = np.maximum((change**2).sum(axis=1), SAME_POINT_MM**2)
    at = np.clip(-(first * change).sum(axis=1) / square, 0, 1)
    slowest = ((first + at[:, None] * change) ** 2).sum(axis=1)
    across = np.abs(first[:, 0] * last[:, 1] - first[:, 1] * last[:, 0])
    by_turn = across / np.maximum(slowest, SAME_POINT_MM**2) / _TURN
    by_sag = np.sqrt(np.sqrt(square) / 4 / FLATNESS_MM)
    pieces = np.ceil(np.clip(np.maximum(by_turn, by_sag), 1, _MOST_PIECES))
    return np.asarray(pieces, np.intp)
