"""Random trees along the edges of a mesh, and the way round them."""

from typing import Final

import numpy as np

from stitchpath.layouts._mesh import Mesh
from stitchpath.layouts._triangles import Flags, Indices

_MOST_BRANCHES: Final = 3
"""At one point, where it can be helped: more leave a wide bare place."""


def random_tree(mesh: Mesh, rng: np.random.Generator) -> Flags:
    """Return which half-edges are in a random tree that joins all points inside.

    Points that do not hang together get a tree each.
    """
    return join_tree(mesh, rng.permutation(inner_edges(mesh)))


def inner_edges(mesh: Mesh) -> Indices:
    """Return one half-edge of each edge that joins two points inside."""
    is_inner = ~(mesh.is_rim[mesh.tail] | mesh.is_rim[mesh.head])
    return np.flatnonzero(is_inner & (mesh.tail < mesh.head))


def join_tree(mesh: Mesh, edges: Indices) -> Flags:
    """Return which half-edges are in the tree that takes edges in their order.

    An edge is taken where it joins what was apart (Kruskal 1956, from memory).
    """
    pairs = list(zip(mesh.tail[edges].tolist(), mesh.head[edges].tolist(), strict=True))
    leader = list(range(len(mesh.points)))
    branches = [0] * len(mesh.points)
    taken: list[int] = []
    for most in (_MOST_BRANCHES, len(pairs)):
        for at, (tail, head) in enumerate(pairs):
            if branches[tail] < most and branches[head] < most:
                one, other = _leader(leader, tail), _leader(leader, head)
                if one != other:
                    leader[one] = other
                    branches[tail] += 1
                    branches[head] += 1
                    taken.append(at)
    is_tree = np.zeros(len(mesh.tail), np.bool_)
    is_tree[edges[taken]] = True
    is_tree[mesh.twin[edges[taken]]] = True
    return is_tree


def _leader(leader: list[int], point: int) -> int:
    """Return the point that stands for all that a point is joined to."""
    while leader[point] != point:
        leader[point] = leader[leader[point]]
        point = leader[point]
    return point


def go_round(mesh: Mesh, is_tree: Flags) -> list[Indices]:
    """Return for each tree the half-edges met on the way round it, each once.

    The way turns about a point from one half-edge to the next; where one is in the tree, it is
    followed, and the turning goes on about its head.
    """
    after = np.where(is_tree, mesh.turned[mesh.twin], mesh.turned).tolist()
    is_left = ~mesh.is_rim[mesh.tail]
    tours: list[Indices] = []
    for start in np.flatnonzero(is_left).tolist():
        if is_left[start]:
            tour = [start]
            while (at := after[tour[-1]]) != start:
                tour.append(at)
            tours.append(np.array(tour))
            is_left[tours[-1]] = False
    return tours
