"""Repeats laid in rows: where rows and repeats lie, and long lines made of equal parts.

A *lattice* is the places, one step apart, at which something repeats along an axis; a *unit* is
the line of one repeat, from where it begins to where the next one begins.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, floor, pi, sin, tan
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.curves import arc_points, curve_points
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.layouts._layout import Ground, Strand
from stitchpath.model.quilt import Quilting

Axis: TypeAlias = Literal[0, 1]

Wave: TypeAlias = Callable[[NDArray[np.float64]], Points]
"""Places of a wave at parameters in periods: along its row in periods, below its row in mm."""

ACROSS: Final[Axis] = 0
DOWN: Final[Axis] = 1

ON_EDGE: Final = 0.0
"""An area's edge falls on a lattice place, as grid lines want it."""

BETWEEN: Final = 0.5
"""An area's edge falls halfway between two lattice places, as rows and whole motifs want it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lattice:
    """Equal steps along an axis, mm; index 0 is at the origin."""

    origin: float
    step: float

    def at(self, index: int) -> float:
        """Return the place of an index."""
        return self.origin + index * self.step

    def covering(self, low: float, high: float) -> range:
        """Return the indices of all places from `low` to `high`; there may be none."""
        first = ceil((low - self.origin - SAME_POINT_MM) / self.step)
        return range(first, floor((high - self.origin + SAME_POINT_MM) / self.step) + 1)

    def nearest(self, place: float) -> int:
        """Return the index of the place nearest to another, the lower one of two.

        Example:
            >>> Lattice(origin=0.0, step=10.0).nearest(25.0)
            2
        """
        return ceil((place - self.origin - SAME_POINT_MM) / self.step - 0.5)


def find_lattice(
    ground: Ground, spec: Quilting, step_mm: float, *, axis: Axis, edge: float
) -> Lattice:
    """Return the places of repeats along an axis.

    Args:
        ground: Where they are laid.
        spec: Its `start` and `fit`. From the centre, a place lies on the frame's centre, or,
            fitted, the frame's edges fall where `edge` says and the centre where it may. From
            the edge, the region's left or upper edge falls where `edge` says.
        step_mm: One step, > 0.
        axis: `ACROSS` or `DOWN`.
        edge: `ON_EDGE` or `BETWEEN`.
    """
    if spec.start == "edge":
        low = float(ground.region.bounds[axis])
        return Lattice(origin=low + edge * step_mm, step=step_mm)
    low, high = ground.frame[axis], ground.frame[axis + 2]
    origin = (low + high) / 2
    if spec.fit:
        count = max(1, round((high - low) / step_mm))
        origin += (edge - count / 2) * step_mm
    return Lattice(origin=origin, step=step_mm)


def find_origin(
    ground: Ground, spec: Quilting, steps: tuple[float, float], *, edge: float
) -> tuple[float, float]:
    """Return where a place of two lattices lies, across and down; see `find_lattice`."""
    across, down = (
        find_lattice(ground, spec, step, axis=axis, edge=edge).origin
        for step, axis in zip(steps, (ACROSS, DOWN), strict=True)
    )
    return across, down


def whole_steps(spec: Quilting, across_mm: float, down_mm: float) -> tuple[float, float]:
    """Return the repeat of a layout whose steps `find_lattice` places.

    From the centre, fitting fills each half of a side with whole repeats. Half a step is enough
    there: two of them make a step, and a lattice can have an odd number of steps to the side.
    """
    share = 0.5 if spec.start == "centre" else 1.0
    return share * across_mm, share * down_mm


def whole_squares(spec: Quilting) -> tuple[float, float]:
    """Return the repeat of a layout on a grid of squares, `spacing` wide."""
    return whole_steps(spec, spec.spacing, spec.spacing)


def tile(unit: Points, step: tuple[float, float], count: int) -> Points:
    """Return copies of a unit, end to end, as one line.

    Args:
        unit: Shape (n, 2), mm; its last point is its first one moved by `step`.
        step: From one copy to the next, mm.
        count: Copies, >= 1.

    Example:
        >>> tile(np.array([[0.0, 0.0], [1.0, 2.0], [2.0, 0.0]]), (2.0, 0.0), 2)[:, 0].tolist()
        [0.0, 1.0, 2.0, 3.0, 4.0]

    Cost: O(count * n), without a loop over copies.
    """
    moved = np.arange(count)[:, None, None] * np.array(step) + unit[:-1]
    last = unit[-1:] + (count - 1) * np.array(step)
    return np.concatenate([moved.reshape(-1, 2), last])


def long_line(unit: Points, starts: Lattice, low: float, high: float) -> Points:
    """Return a line of units along x, at least from `low` to `high`.

    Args:
        unit: Begins at x = 0 and ends one step further.
        starts: Where units begin.
        low: Least x to be covered, mm.
        high: Greatest x to be covered, mm.
    """
    first = floor((low - starts.origin) / starts.step)
    count = max(1, ceil((high - starts.origin) / starts.step) - first)
    return shifted(tile(unit, (starts.step, 0.0), count), across=starts.at(first))


def extent(ground: Ground, axis: Axis, *, reach_mm: float = 0.0) -> tuple[float, float]:
    """Return from where to where a ground's region lies along an axis, and a reach beyond."""
    bounds = ground.region.bounds
    return float(bounds[axis]) - reach_mm, float(bounds[axis + 2]) + reach_mm


def lay_rows(
    lines: tuple[tuple[Points, ...], ...],
    rows: Lattice,
    span: tuple[float, float],
    *,
    middle: float,
    axis: Axis = ACROSS,
) -> tuple[Strand, ...]:
    """Return rows of lines; those of the row nearest to the middle are anchors.

    Args:
        lines: Lines of a row along x at y = 0; row k has those of index k modulo their number.
        rows: Where rows lie.
        span: The least and the greatest place of a row.
        middle: Where the middle is, square to the rows, mm.
        axis: `ACROSS`, or `DOWN` to exchange x and y in the strands.
    """
    nearest = rows.nearest(middle)
    strands: list[Strand] = []
    for index in rows.covering(*span):
        for line in lines[index % len(lines)]:
            moved = shifted(line, down=rows.at(index))
            points = moved if axis == ACROSS else moved[:, ::-1].copy()
            strands.append(Strand(points=points, anchor=index == nearest))
    return tuple(strands)


def wave_unit(wave: Wave, period_mm: float) -> Points:
    """Return one period of a wave, from x = 0."""
    return curve_points(lambda t: wave(t) * (period_mm, 1.0), 0.0, 1.0, pieces=4)


def sine(amplitude_mm: float, *, share: float = 0.0) -> Wave:
    """Return the wave y = A sin(2 pi (x / P - 1 / 2 + share)): from the middle of a period."""
    return lambda t: np.column_stack([t, amplitude_mm * np.sin(2 * pi * (t - 0.5 + share))])


def bow(chord_mm: float, half_rad: float) -> Points:
    """Return an arc from (0, 0) to (chord, 0) that bulges up, through an angle of 2 half_rad.

    Its radius is chord / (2 sin half), its centre chord / (2 tan half) below the chord.
    """
    centre = (chord_mm / 2, chord_mm / (2 * tan(half_rad)))
    radius = chord_mm / (2 * sin(half_rad))
    points = arc_points(centre, radius, -pi / 2 - half_rad, -pi / 2 + half_rad)
    points[[0, -1]] = (0.0, 0.0), (chord_mm, 0.0)
    return points


def bow_wave(chord_mm: float, half_rad: float) -> Points:
    """Return a bow up, then one down: a wave of two chords' length without a corner."""
    up = bow(chord_mm, half_rad)
    return np.concatenate([up, up[1:] * (1.0, -1.0) + (chord_mm, 0.0)])


def lay_chains(
    ground: Ground, spec: Quilting, half_rad: float, *, axis: Axis, edge: float
) -> tuple[Strand, ...]:
    """Return chains of petals along an axis: two bow waves, each the mirror of the other.

    Args:
        ground: Where they are laid.
        spec: Its `spacing`, from chain to chain and from petal tip to petal tip.
        half_rad: Half the angle of a bow.
        axis: Along which the chains run.
        edge: `ON_EDGE` for petals along the sides of the squares of a grid, `BETWEEN` for
            petals through the middles of the squares.
    """
    square = DOWN if axis == ACROSS else ACROSS
    pitch = spec.spacing
    along, rows = (
        find_lattice(ground, spec, pitch, axis=way, edge=edge) for way in (axis, square)
    )
    tips = Lattice(origin=along.origin + edge * pitch, step=2 * pitch)
    line = long_line(bow_wave(pitch, half_rad), tips, *extent(ground, axis))
    return lay_rows(
        ((line, mirrored(line)),),
        rows,
        extent(ground, square, reach_mm=pitch / 2 * tan(half_rad / 2)),
        middle=ground.centre[square],
        axis=axis,
    )


def lay_petals(
    ground: Ground, spec: Quilting, half_rad: float, *, edge: float
) -> tuple[Strand, ...]:
    """Return chains of petals down, then across; see `lay_chains`."""
    return tuple(
        strand
        for axis in (DOWN, ACROSS)
        for strand in lay_chains(ground, spec, half_rad, axis=axis, edge=edge)
    )


def shifted(line: Points, *, across: float = 0.0, down: float = 0.0) -> Points:
    """Return a line moved to the right and down, mm."""
    moved: Points = line + np.array([across, down])
    return moved


def mirrored(line: Points) -> Points:
    """Return a line with up and down exchanged."""
    return line * (1.0, -1.0)
