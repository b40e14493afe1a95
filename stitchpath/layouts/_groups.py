"""Straight lines of one direction that are not evenly spaced: pairs, threes, any places.

A group is `count` lines, `gap` apart; groups are `spacing` apart, from middle to middle.
"""

from math import sqrt
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.families import extent_across, family_at, normal_vector
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting

LEAST_GAP_MM: Final = 1.0
"""No two lines of a group are nearer, as with the project's `gap`; nearer, and two rows of
needle holes cut the cloth."""

GAP_IN_WORDS: Final = "spacing / (3 x count); at most spacing / count"


def origin_of(ground: Ground, spec: Quilting) -> tuple[float, float]:
    """Return where a pattern begins: the ground's centre or the region's upper left corner."""
    if spec.start == "centre":
        return ground.centre
    left, top, _, _ = ground.region.bounds
    return left, top


def place_strands(
    ground: Ground, at: NDArray[np.float64], *, angle_deg: float
) -> tuple[Strand, ...]:
    """Return strands of one direction at ascending places, the one nearest the middle anchor.

    Args:
        ground: Where they lie.
        at: Where each lies along the direction's normal, shape (n,), mm.
        angle_deg: The direction.
    """
    family = family_at(ground.region, at, angle_deg=angle_deg, centre=ground.centre)
    return tuple(
        Strand(points=ends, anchor=index == family.middle)
        for index, ends in enumerate(family.ends)
    )


def grouped_strands(
    ground: Ground,
    spec: Quilting,
    *,
    angle_deg: float,
    spacing_mm: float,
    count: int = 1,
    through: tuple[float, float] | None = None,
) -> tuple[Strand, ...]:
    """Return strands of one direction in groups.

    Where the pattern starts at the centre, the middle of a group runs through it; where it
    starts at the edge, the first line of a group runs through the region's upper left corner.

    Args:
        ground: Where they lie.
        spec: Its gap and start.
        angle_deg: The direction.
        spacing_mm: From group to group, > 0.
        count: Lines of a group, > 0; fewer where the spacing has no room for them.
        through: Another point for the pattern to start at.
    """
    count = group_size(count, spacing_mm)
    within = np.arange(count) * _gap_mm(spec, spacing_mm, count)
    if spec.start == "centre":
        within = within - within[-1] / 2
    start = through if through is not None else origin_of(ground, spec)
    origin = float(np.dot(start, normal_vector(angle_deg)))
    low, high = extent_across(ground.region, angle_deg)
    first = np.floor((low - origin) / spacing_mm) - 1
    last = np.ceil((high - origin) / spacing_mm) + 1
    middles = origin + np.arange(first, last + 1) * spacing_mm
    return place_strands(ground, np.add.outer(middles, within).ravel(), angle_deg=angle_deg)


def group_size(count: int, spacing_mm: float) -> int:
    """Return how many lines a group has: fewer where the spacing has no room for them."""
    return max(1, min(count, int(spacing_mm / LEAST_GAP_MM)))


def slanting_groups(count: int, *, in_words: str) -> Layout:
    """Return the layout of lines at 45 degrees in groups: double and triple diagonals.

    Args:
        count: Lines of a group.
        in_words: What such a group is called, in the plural.
    """

    def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
        return grouped_strands(
            ground, spec, angle_deg=45.0, spacing_mm=spec.spacing, count=count
        )

    def repeat(spec: Quilting) -> tuple[float, float]:
        side = spec.spacing * sqrt(2)
        return side, side

    return Layout(
        summary=f"slanting lines in {in_words}",
        make=make,
        keys={
            "spacing": "75 mm, from group to group",
            "gap": GAP_IN_WORDS.replace("count", str(count)),
            "start": "centre",
            "angle": "0; 90 slants them the other way",
        },
        repeat=repeat,
        cut_shows=(False, False),
        density=lambda spec: group_size(count, spec.spacing),
        is_straight=True,
    )


def _gap_mm(spec: Quilting, spacing_mm: float, count: int) -> float:
    """Return the distance within a group; groups never reach into one another."""
    wanted = max(LEAST_GAP_MM, spacing_mm / (3 * count)) if spec.gap is None else spec.gap
    return min(wanted, spacing_mm / count)
