"""Faces: the parts into which paths part the plane.

Method: every stretch between two nodes has two sides. Walking along a stretch with a side to
the left, the next stretch at its end is the next one round the node; such a *circuit* bounds
one face from inside, or all that hangs together from outside (a doubly connected edge list,
textbook computational geometry). What hangs together lies in the smallest face round it, or
outside.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.nodes import Visits, find_nodes
from stitchpath.geometry.paths import Paths, ranges
from stitchpath.geometry.points import Points, parts_of, segment_lengths
from stitchpath.geometry.stretches import Stretches, find_stretches
from stitchpath.geometry.tolerance import STRAIGHT_RAD

_Indices = NDArray[np.intp]

"""A turn the wrong way by less is none: two stretches of a straight line, with float noise."""


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
        starts = np.concatenate([[0], np.cumsum(np.bincount(flat))])
        return cls(stretches=stretches, order=np.argsort(flat, kind="stable"), starts=starts)

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
    return _faces_of(*_parted(Paths.of(paths)))


def faces_between(paths: Paths, visits: Visits) -> Faces:
    """Return the faces of some paths whose nodes are known."""
    return _faces_of(find_stretches(paths, visits), visits.parts)


def _parted(paths: Paths) -> tuple[Stretches, _Indices]:
    """Return stretches and connected parts; nodes, which take memory, are not kept."""
    visits = find_nodes(paths)
    return find_stretches(paths, visits), visits.parts


def _faces_of(stretches: Stretches, parts: _Indices) -> Faces:
    """Return the faces between stretches.

    Args:
        stretches: The stretches of some paths.
        parts: The connected part of each path.
    """
    circuits, turns = _circuits(stretches)
    walks = _walks(stretches, circuits, turns, parts[stretches.path])
    is_rim = _are_rims(walks)
    face = np.where(is_rim, 0, np.cumsum(~is_rim))
    rims = np.flatnonzero(is_rim)
    face[rims] = face[_holders(stretches, circuits, walks, rims)]
    sides = face[circuits]
    widest = np.append(np.inf, _widest(walks)[~is_rim])
    return Faces(stretches=stretches, sides=sides, widest=widest)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Walks:
    """The circuits, a row each: the area walked round, the way, the box, the turns."""

    part: _Indices
    area: NDArray[np.float64]
    way: NDArray[np.float64]
    low: Points
    high: Points
    convex: NDArray[np.bool_]
    place: Points


def _following(stretches: Stretches) -> _Indices:
    """Return for each side, twice the stretch plus 0 or 1, the side that comes after it.

    Side 0 is walked from the first node to the last, side 1 back; both keep their face on the
    same hand, so that circuits have a positive area from inside.
    """
    origin, angle = stretches.nodes.ravel(), stretches.headings.ravel()
    order = np.lexsort((angle, origin))
    rank = np.empty_like(order)
    rank[order] = np.arange(len(order))
    first = np.flatnonzero(np.diff(origin[order], prepend=-1))
    before = np.arange(len(order)) - 1
    before[first] = np.append(first[1:], len(order)) - 1
    return np.asarray(order[before[rank[np.arange(len(order)) ^ 1]]])


def _circuits(stretches: Stretches) -> tuple[_Indices, NDArray[np.float64]]:
    """Return each side's circuit, shape (n, 2), and how often each circuit turns away."""
    following = _following(stretches)
    circuits = _cycles(following)
    turns = _totals(circuits, _turns_out(stretches, following))
    return circuits.reshape(-1, 2), turns


def _cycles(following: _Indices) -> _Indices:
    """Return the number of the cycle that each place of a permutation is on."""
    own = np.arange(len(following), dtype=np.int32)  # there are no 500 million crossings
    label, jump = own, following.astype(np.int32)
    while True:
        lower = np.minimum(label, label[jump])
        if (lower == label).all():
            return np.asarray((np.cumsum(label == own) - 1)[label])
        label, jump = lower, jump[jump]


def _walks(
    stretches: Stretches, circuits: _Indices, turns: NDArray[np.float64], parts: _Indices
) -> _Walks:
    around, count = circuits.ravel(), len(turns)
    xy, heads = stretches.xy, stretches.starts[:-1]
    swept = stretches.sums(_swept(xy - xy.mean(axis=0))) / 2
    length = stretches.sums(np.append(segment_lengths(xy), 0.0))
    part = np.empty(count, dtype=np.intp)
    part[circuits] = parts[:, None]
    low, high = np.full((count, 2), np.inf), np.full((count, 2), -np.inf)
    for pick, edges in ((np.minimum, low), (np.maximum, high)):
        _spread(pick, edges, circuits, xy, heads)
    place = np.empty((count, 2))
    place[circuits] = xy[heads][:, None]
    return _Walks(
        part=part,
        area=_totals(around, np.column_stack([swept, -swept]).ravel()),
        way=_totals(around, np.repeat(length, 2)),
        low=low,
        high=high,
        convex=turns == 0,
        place=place,
    )


def _spread(
    pick: np.ufunc, edges: Points, circuits: _Indices, xy: Points, heads: _Indices
) -> None:
    """Put in the least or the greatest x and y of each circuit.

    Axis by axis: numpy picks single numbers several times faster than rows of two.
    """
    for axis in (0, 1):
        own, edge = edges[:, axis].copy(), pick.reduceat(xy[:, axis], heads)
        for side in (0, 1):
            pick.at(own, circuits[:, side], edge)
        edges[:, axis] = own


def _totals(of: _Indices, what: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.bincount(of, what).astype(np.float64)


def _swept(xy: Points) -> NDArray[np.float64]:
    """Return twice the area swept from each vertex to the next, none from the last."""
    swept = np.zeros(len(xy))
    (x, y), (x_next, y_next) = xy[:-1].T, xy[1:].T
    swept[:-1] = x * y_next
    swept[:-1] -= x_next * y
    return swept


def _turns_out(stretches: Stretches, following: _Indices) -> NDArray[np.float64]:
    """Return how often each side's walk turns away from its face, its end included."""
    angle = stretches.headings
    turn = angle.ravel()[following]
    turn -= angle[:, ::-1].ravel()
    turn -= np.pi
    turn -= 2 * np.pi * np.round(turn / (2 * np.pi))
    return np.asarray(_bends_out(stretches).ravel() + _is_out(turn))


def _bends_out(stretches: Stretches) -> NDArray[np.float64]:
    """Return how often each side turns away from its face on its own way, shape (n, 2)."""
    bend = np.zeros(len(stretches.xy))
    for part in parts_of(len(bend) - 2):
        steps = np.diff(stretches.xy[part.start : part.stop + 2], axis=0)
        step, after = steps[:-1], steps[1:]
        across = step[:, 0] * after[:, 1] - step[:, 1] * after[:, 0]
        ahead = step[:, 0] * after[:, 0] + step[:, 1] * after[:, 1]
        bend[part] = np.arctan2(across, ahead)
    bend[stretches.starts[1:] - 2] = 0  # that is the turn to the next stretch
    along = [stretches.sums(_is_out(sign * bend).astype(np.float64)) for sign in (1, -1)]
    return np.column_stack(along)


def _is_out(turn: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which turns, in radians, lead away from the face; turning right back does."""
    return (turn < -STRAIGHT_RAD) | (np.pi - STRAIGHT_RAD < turn)


def _are_rims(walks: _Walks) -> NDArray[np.bool_]:
    """Return which circuits go round what hangs together from outside: one for each part."""
    order = np.lexsort((walks.area, walks.part))
    is_rim = np.zeros(len(order), dtype=bool)
    is_rim[order[np.diff(walks.part[order], prepend=-1) != 0]] = True
    return is_rim


def _holders(
    stretches: Stretches, circuits: _Indices, walks: _Walks, rims: _Indices
) -> _Indices:
    """Return for each rim the smallest circuit of another part round it, or itself for none."""
    holder = rims.copy()
    if len(rims) in {1, len(walks.part)}:
        return holder
    near = _near_places(walks, rims)
    # a tree looks at boxes alone, and a box's diagonal is made in less time than the box
    boxes = np.stack([walks.low[near], walks.high[near]], axis=1)
    places = np.asarray(shapely.points(walks.place[rims]))
    rim, shell = shapely.STRtree(np.asarray(shapely.linestrings(boxes))).query(places)
    shell = near[shell]
    place = walks.place[rims[rim]]
    inside = ((walks.low[shell] < place) & (place < walks.high[shell])).all(axis=1)
    inside &= walks.part[rims[rim]] != walks.part[shell]
    rim, shell = rim[inside], shell[inside]
    order = np.argsort(-walks.area[shell], kind="stable")  # the smallest is said last
    if not len(rim):
        return holder
    borders, shells = Borders.of(stretches, circuits), np.unique(shell)
    shapes = dict(zip(shells.tolist(), borders.shapes(shells), strict=True))
    for one, round_it in zip(rim[order].tolist(), shell[order].tolist(), strict=True):
        if shapes[round_it].contains(places[one]):
            holder[one] = round_it
    return holder


def _near_places(walks: _Walks, rims: _Indices) -> _Indices:
    """Return the circuits but rims whose boxes may have a rim's place inside: seldom many.

    Such a box has one between its left and right, and one between its top and bottom.
    """
    may = np.ones(len(walks.part), dtype=np.bool_)
    may[rims] = False
    for axis in (0, 1):
        at = np.sort(walks.place[rims, axis])
        first = np.searchsorted(at, walks.low[:, axis])
        may &= first < np.searchsorted(at, walks.high[:, axis], side="right")
    return np.flatnonzero(may)


def _widest(walks: _Walks) -> NDArray[np.float64]:
    """Return for each circuit a radius that no circle inside it exceeds.

    A circle is no wider than the box round the circuit, and no larger than its area. Where the
    circuit never turns away, the area is at least half the radius times the way round.
    """
    by_box = (walks.high - walks.low).min(axis=1) / 2
    by_area = np.sqrt(np.maximum(walks.area, 0) / np.pi)
    by_way = np.where(walks.convex, 2 * walks.area / walks.way, np.inf)
    return np.asarray(np.minimum(np.minimum(by_box, by_area), by_way))
