"""Faces: the parts into which paths part the plane.

Method: every stretch between two nodes has two sides. Walking along a stretch with a side to
the left, the next stretch at its end is the next one round the node; such a *circuit* bounds
one face from inside, or all that hangs together from outside (a doubly connected edge list,
textbook computational geometry). What hangs together lies in the smallest face round it, or
outside.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.circuits import Circuits
from stitchpath.geometry.nodes import Visits, find_nodes
from stitchpath.geometry.paths import Paths, ranges
from stitchpath.geometry.points import Points, parts_of, segment_lengths
from stitchpath.geometry.stretches import Stretches, find_stretches
from stitchpath.geometry.tolerance import STRAIGHT_RAD

_Indices = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Borders:
    """Which stretches have a face or a circuit beside them, on one side or on both.

    Attributes:
        stretches: The stretches.
        order: Their sides, two for each, sorted by what lies beside them.
        starts: Where in `order` each face or circuit begins.
    """

    stretches: Stretches
    order: _Indices
    starts: _Indices

    @classmethod
    def of(cls, stretches: Stretches, sides: _Indices) -> "Borders":
        """Return the borders for the numbers on both sides of each stretch, shape (n, 2)."""
        flat = sides.ravel()
        order = np.argsort(flat, kind="stable")
        starts = np.append(0, np.cumsum(np.bincount(flat)))
        return cls(stretches=stretches, order=order, starts=starts)

    def shapes(self, numbers: _Indices) -> NDArray[np.object_]:
        """Return each as a polygon, without loose ends; at least one, none the outside."""
        counts = self.starts[numbers + 1] - self.starts[numbers]
        own = self.order[ranges(self.starts[numbers], counts)] // 2
        of = np.repeat(np.arange(len(numbers)), counts)
        is_new = (np.diff(own, prepend=-1) != 0) | (np.diff(of, prepend=-1) != 0)
        once = is_new & np.roll(is_new, -1)  # a loose one comes twice running
        lines = self.stretches.shapes(own[once])
        groups = np.split(lines, np.searchsorted(of[once], np.arange(1, len(numbers))))
        return np.array([_outermost(group) for group in groups])

    def loose(self, number: int) -> NDArray[np.object_]:
        """Return the stretches with it on both sides, as line strings."""
        own = self.order[self.starts[number] : self.starts[number + 1]] // 2
        return self.stretches.shapes(own[1:][np.diff(own) == 0])


def _outermost(lines: NDArray[np.object_]) -> shapely.Polygon:
    """Return the polygon between lines that the others between them lie inside of.

    It is empty where the lines only walk out and back.
    """
    polygons = shapely.get_parts(shapely.polygonize(lines))
    if not len(polygons):
        return shapely.Polygon()
    low_x, low_y, high_x, high_y = shapely.bounds(polygons).T
    widest: shapely.Polygon = polygons[np.argmax((high_x - low_x) * (high_y - low_y))]
    return widest


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Faces:
    """The faces of some paths; face 0 is the outside, the others are numbered from 1.

    Attributes:
        borders: The stretches that bound each face.
        sides: The faces on the two sides of each stretch, shape (stretches, 2).
        widest: For each face a radius, mm, that no circle inside it exceeds; infinite for the
            outside.
    """

    borders: Borders
    sides: _Indices
    widest: NDArray[np.float64]


def find_faces(paths: list[Points]) -> Faces:
    """Return the faces of some paths; there is at least one.

    Cost: O((segments + crossings) log), in whole arrays.

    Example:
        >>> square = np.array([[0.0, 0.0], [9.0, 0.0], [9.0, 9.0], [0.0, 9.0], [0.0, 0.0]])
        >>> faces = find_faces([square, np.array([[-1.0, 5.0], [10.0, 5.0]])])
        >>> [shape.area for shape in faces.borders.shapes(np.array([1, 2]))]
        [45.0, 36.0]
    """
    own = Paths.of(paths)
    visits = find_nodes(own)
    stretches = find_stretches(own, visits)
    circuits = Circuits.of(stretches, visits.parts)
    sides = _sides(circuits)
    return Faces(
        borders=Borders.of(stretches, sides),
        sides=sides,
        widest=np.append(np.inf, _widest(circuits)[~circuits.is_rim]),
    )


def sides_between(paths: Paths, visits: Visits) -> tuple[Stretches, _Indices]:
    """Return the stretches of paths whose nodes are known, and what `Faces.sides` has of them.

    That is what ordering lines asks for, and takes half the time of all that `Faces` has.
    """
    stretches = find_stretches(paths, visits)
    return stretches, _sides(Circuits.of(stretches, visits.parts))


def _sides(circuits: Circuits) -> _Indices:
    """Return the faces on the two sides of each stretch, shape (stretches, 2)."""
    is_rim = circuits.is_rim
    face = np.where(is_rim, 0, np.cumsum(~is_rim))
    rims = np.flatnonzero(is_rim)
    face[rims] = face[_holders(circuits, rims)]
    return np.asarray(face[circuits.beside])


def _turns_out(stretches: Stretches, following: _Indices) -> NDArray[np.float64]:
    """Return how often each side's walk turns away from its face, its end included."""
    bend = np.zeros(len(stretches.xy))
    for part in parts_of(len(bend) - 2):
        steps = np.diff(stretches.xy[part.start : part.stop + 2], axis=0)
        step, after = steps[:-1], steps[1:]
        across = step[:, 0] * after[:, 1] - step[:, 1] * after[:, 0]
        ahead = step[:, 0] * after[:, 0] + step[:, 1] * after[:, 1]
        bend[part] = np.arctan2(across, ahead)
    bend[stretches.starts[1:] - 2] = 0  # that is the turn to the next stretch
    along = [stretches.sums(_is_out(sign * bend).astype(np.float64)) for sign in (1, -1)]
    angle = stretches.headings.ravel()
    turn = angle[following] - angle[np.arange(len(angle)) ^ 1] - np.pi
    turn -= 2 * np.pi * np.round(turn / (2 * np.pi))
    return np.asarray(np.column_stack(along).ravel() + _is_out(turn))


def _is_out(turn: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which turns, in radians, lead away from the face; turning right back does."""
    return (turn < -STRAIGHT_RAD) | (np.pi - STRAIGHT_RAD < turn)


def _holders(circuits: Circuits, rims: _Indices) -> _Indices:
    """Return for each rim the smallest circuit of another part round it, or itself for none."""
    holder = rims.copy()
    if len(rims) in {1, len(circuits)}:
        return holder
    (low, high), part, at_rims = circuits.box, circuits.part, circuits.place[rims]
    near = _near_places(low, high, rims, at_rims)
    # a tree looks at boxes alone, and a box's diagonal is made in less time than the box
    boxes = np.stack([low[near], high[near]], axis=1)
    places = np.asarray(shapely.points(at_rims))
    rim, shell = shapely.STRtree(np.asarray(shapely.linestrings(boxes))).query(places)
    shell = near[shell]
    place = at_rims[rim]
    inside = ((low[shell] < place) & (place < high[shell])).all(axis=1)
    inside &= part[rims[rim]] != part[shell]
    rim, shell = rim[inside], shell[inside]
    order = np.argsort(-circuits.area[shell], kind="stable")  # the smallest is said last
    if not len(rim):
        return holder
    borders, shells = Borders.of(circuits.stretches, circuits.beside), np.unique(shell)
    shapes = dict(zip(shells.tolist(), borders.shapes(shells), strict=True))
    for one, round_it in zip(rim[order].tolist(), shell[order].tolist(), strict=True):
        if shapes[round_it].contains(places[one]):
            holder[one] = round_it
    return holder


def _near_places(low: Points, high: Points, rims: _Indices, at_rims: Points) -> _Indices:
    """Return the circuits but rims whose boxes may have a rim's place inside: seldom many.

    Such a box has one between its left and right, and one between its top and bottom.
    """
    may = np.ones(len(low), dtype=np.bool_)
    may[rims] = False
    for axis in (0, 1):
        at = np.sort(at_rims[:, axis])
        first = np.searchsorted(at, low[:, axis])
        may &= first < np.searchsorted(at, high[:, axis], side="right")
    return np.flatnonzero(may)


def _widest(circuits: Circuits) -> NDArray[np.float64]:
    """Return for each circuit a radius that no circle inside it exceeds.

    A circle is no wider than the box round the circuit, and no larger than its area. Where the
    circuit never turns away, the area is at least half the radius times the way round.
    """
    stretches, around, area = circuits.stretches, circuits.beside.ravel(), circuits.area
    low, high = circuits.box
    length = stretches.sums(np.append(segment_lengths(stretches.xy), 0.0))
    way = np.bincount(around, np.repeat(length, 2))
    is_convex = np.bincount(around, _turns_out(stretches, circuits.following)) == 0
    by_box = np.minimum(*(high - low).T) / 2
    by_area = np.sqrt(np.maximum(area, 0) / np.pi)
    by_way = np.where(is_convex, 2 * area / way, np.inf)
    return np.asarray(np.minimum(np.minimum(by_box, by_area), by_way))
