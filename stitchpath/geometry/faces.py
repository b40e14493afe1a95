"""Faces: the parts into which paths part the plane.

Method: every circuit along the paths bounds one face from inside, but for the rims, which go
round what hangs together from outside. What hangs together lies in the smallest face round it,
or outside.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.circuits import Circuits, find_circuits
from stitchpath.geometry.nodes import Visits, find_nodes
from stitchpath.geometry.paths import Paths, ranges
from stitchpath.geometry.points import Points
from stitchpath.geometry.stretches import Stretches, find_stretches

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


@dataclass(frozen=True, kw_only=True, eq=False)
class Faces:
    """The faces of some paths; face 0 is the outside, the others are numbered from 1.

    Attributes:
        stretches: The stretches between them.
        sides: The faces on the two sides of each stretch, shape (stretches, 2).
        widest: For each face a radius, mm, that no circle inside it exceeds; infinite for the
            outside.
    """

    stretches: Stretches
    sides: _Indices
    widest: NDArray[np.float64]

    @cached_property
    def borders(self) -> Borders:
        """The stretches that bound each face."""
        return Borders.of(self.stretches, self.sides)


def find_faces(paths: list[Points]) -> Faces:
    """Return the faces of some paths; there is at least one.

    Cost: O((segments + crossings) log), in whole arrays.

    Example:
        >>> square = np.array([[0.0, 0.0], [9.0, 0.0], [9.0, 9.0], [0.0, 9.0], [0.0, 0.0]])
        >>> faces = find_faces([square, np.array([[-1.0, 5.0], [10.0, 5.0]])])
        >>> [shape.area for shape in faces.borders.shapes(np.array([1, 2]))]
        [45.0, 36.0]
    """
    circuits = _circuits_of(Paths.of(paths))
    return Faces(
        stretches=circuits.stretches,
        sides=_sides(circuits),
        widest=np.append(np.inf, circuits.widest[~circuits.is_rim]),
    )


def sides_between(paths: Paths, visits: Visits) -> tuple[Stretches, _Indices]:
    """Return the stretches of paths whose nodes are known, and what `Faces.sides` has of them.

    That is what ordering lines asks for, and takes half the time of all that `Faces` has.
    """
    stretches = find_stretches(paths, visits)
    return stretches, _sides(find_circuits(stretches, visits.parts))


def _circuits_of(paths: Paths) -> Circuits:
    """Return the circuits; nodes, which take memory, are not kept."""
    visits = find_nodes(paths)
    return find_circuits(find_stretches(paths, visits), visits.parts)


def _sides(circuits: Circuits) -> _Indices:
    """Return the faces on the two sides of each stretch, shape (stretches, 2)."""
    is_rim = circuits.is_rim
    face = np.where(is_rim, 0, np.cumsum(~is_rim))
    rims = np.flatnonzero(is_rim)
    face[rims] = face[_holders(circuits, rims)]
    return np.asarray(face[circuits.sides])


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
    borders, shells = Borders.of(circuits.stretches, circuits.sides), np.unique(shell)
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
