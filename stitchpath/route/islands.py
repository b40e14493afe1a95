"""Islands: runs sewn inside a loop that is closed already, with nowhere for slack to go.

Method: the lines part the plane into faces. A run is an island if every way from it to the
outside crosses a line sewn before it. Faces are joined over the lines between them, the last
sewn first, until all that are left apart are apart by lines sewn before (union-find). A stretch
that is sewn again counts from the first time on.
"""

from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.paths import cut_path, points_at
from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.model.stitches import Run
from stitchpath.route.graph import LineGraph, cells_of, line_graph

_BESIDE_MM = 0.01
"""How far beside a stretch its faces are looked up; far less than any face that counts."""


def count_islands(runs: tuple[Run, ...]) -> int:
    """Return how many runs have a stretch inside a loop that the runs before them closed.

    Cost: O(n log n) for n stretches.
    """
    lines = [(number, line) for number, run in enumerate(runs) for line in run.lines]
    graph = line_graph(tuple(line for _, line in lines))
    run_of_line = np.array([number for number, _ in lines])
    sides, run = sides_of_stretches(graph, run_of_line)
    root = list(range(int(sides.max()) + 1))

    def find(face: int) -> int:
        while root[face] != face:
            root[face] = root[root[face]]
            face = root[face]
        return face

    islands: set[int] = set()
    order = np.argsort(-run, kind="stable")
    for group in np.split(order, np.flatnonzero(np.diff(run[order])) + 1):
        for one, other in sides[group].tolist():
            low, high = sorted((find(one), find(other)))
            root[high] = low  # face 0 is the outside, so it stays the root of what is open
        if any(find(one) != 0 for one in sides[group, 0].tolist()):
            islands.add(int(run[group[0]]))
    return len(islands)


def sides_of_stretches(
    graph: LineGraph, run_of_line: NDArray[np.intp]
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return the faces on both sides of each stretch, 0 for the outside, and its run."""
    each = [_stretches(graph, line) for line in range(len(graph.lines))]
    shapes, middle, beside = (np.concatenate(column) for column in zip(*each, strict=True))
    run = np.repeat(run_of_line, [len(own) for own, _, _ in each])
    once = _first_time(middle, run)
    shapes, beside, run = shapes[once], beside[once], run[once]
    faces = shapely.get_parts(shapely.polygonize(shapes))
    sides = np.zeros(beside.shape[:2], dtype=np.intp)
    if len(faces):
        tree = shapely.STRtree(faces)
        row, face = tree.query(shapely.points(beside.reshape(-1, 2)), predicate="within")
        sides.ravel()[row] = face + 1
    return sides, run


def _first_time(middle: Points, run: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return the stretches without those sewn before, told by their middles."""
    cell = cells_of(middle)
    order = np.lexsort((run, cell[:, 1], cell[:, 0]))
    is_new = np.diff(cell[order], axis=0, prepend=cell[order][:1] - 1).any(axis=1)
    return order[is_new]


_Stretches: TypeAlias = tuple[NDArray[np.object_], Points, NDArray[np.float64]]
"""Stretches as shapes, their middles, and a point on either side of each, shape (n, 2, 2)."""


def _stretches(graph: LineGraph, line: int) -> _Stretches:
    """Return the stretches of a line; the shapes begin and end exactly on its nodes."""
    along, places = graph.along[line], graph.places[graph.nodes[line]]
    points = graph.lines[line].points
    if len(points) == 2:  # noqa: PLR2004 - a straight line
        ends = np.stack([places[:-1], places[1:]], axis=1)
        return np.asarray(shapely.linestrings(ends)), ends.mean(axis=1), _beside(ends)
    parts = cut_path(points, np.column_stack([along[:-1], along[1:]]))
    for part, start, end in zip(parts, places[:-1], places[1:], strict=True):
        part[0], part[-1] = start, end
    shapes = np.array([shapely.LineString(part) for part in parts], dtype=np.object_)
    middle = points_at(points, (along[:-1] + along[1:]) / 2)
    return shapes, middle, _beside(np.array([_longest_segment(part) for part in parts]))


def _longest_segment(points: Points) -> Points:
    longest = int(np.argmax(segment_lengths(points)))
    return points[longest : longest + 2]


def _beside(ends: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return a point on either side of the middle of each segment, shape (n, 2, 2)."""
    step = ends[:, 1] - ends[:, 0]
    across = np.column_stack([-step[:, 1], step[:, 0]]) / np.hypot(*step.T)[:, None]
    middle = ends.mean(axis=1)
    return np.stack([middle - _BESIDE_MM * across, middle + _BESIDE_MM * across], axis=1)
