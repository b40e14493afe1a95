"""Pebbles: packed circles, gone round in one line."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import path_length
from stitchpath.layouts import find_layout
from stitchpath.layouts._layout import Ground
from stitchpath.layouts._packing import SIZES, UNEVEN, pack_circles
from stitchpath.model.quilt import Quilting

BOX = shapely.box(0, 0, 300, 240)


def _packed(region: shapely.Polygon = BOX) -> tuple[np.ndarray, list[int]]:
    packing = pack_circles(region, spacing_mm=24, rng=np.random.default_rng(3))
    return np.array(packing.circles), packing.parents


def test_circles_do_not_overlap_and_lie_inside() -> None:
    circles, _ = _packed()
    away = np.hypot(*(circles[:, None, :2] - circles[None, :, :2]).transpose(2, 0, 1))
    touch = circles[:, None, 2] + circles[None, :, 2]
    np.fill_diagonal(away, np.inf)
    assert (away - touch).min() > -1e-4
    room = shapely.distance(BOX.boundary, shapely.points(circles[:, :2]))
    assert (room - circles[:, 2]).min() > -1e-9


def test_each_circle_touches_the_one_it_was_grown_from() -> None:
    circles, parents = _packed()
    grown = np.flatnonzero(np.array(parents) >= 0)
    parent = circles[np.array(parents)[grown]]
    away = np.hypot(*(circles[grown, :2] - parent[:, :2]).T)
    assert away == pytest.approx(circles[grown, 2] + parent[:, 2], abs=1e-9)


def test_sizes_stay_within_what_was_drawn() -> None:
    circles, _ = _packed()
    assert circles[:, 2].max() <= 12 * (1 + UNEVEN)
    assert circles[:, 2].min() >= 12 * (1 - UNEVEN) * SIZES[-1] - 1e-9


def test_nothing_more_fits() -> None:
    """Circles packed at random cover 60 to 84 % (the most is 0.9069, Thue's theorem)."""
    circles, _ = _packed()
    covered = np.pi * (circles[:, 2] ** 2).sum() / BOX.area
    assert 0.6 < covered < 0.9069


def test_one_line_goes_once_round_every_circle() -> None:
    ground = Ground(region=BOX, frame=(0, 0, 300, 240))
    spec = Quilting(layout="pebbles", spacing=24, seed=3)
    (strand,) = find_layout("pebbles").make(ground, spec)
    packing = pack_circles(BOX, spacing_mm=24, rng=np.random.Generator(np.random.PCG64(3)))
    circles = np.array(packing.circles)
    assert path_length(strand.points) == pytest.approx(
        2 * np.pi * circles[:, 2].sum(), rel=2e-3
    )
    assert strand.points[0] == pytest.approx(strand.points[-1], abs=1e-6)
    steps = np.hypot(*np.diff(strand.points, axis=0).T)
    assert steps.max() < 2.0  # nowhere across from one circle to another


def test_every_part_of_an_area_has_a_heap_of_its_own() -> None:
    parts = shapely.MultiPolygon([shapely.box(0, 0, 90, 90), shapely.box(200, 0, 290, 90)])
    ground = Ground(region=parts, frame=parts.bounds)
    strands = find_layout("pebbles").make(ground, Quilting(layout="pebbles", spacing=30))
    assert len(strands) >= 2


def test_where_nothing_fits_nothing_is_laid() -> None:
    ground = Ground(region=shapely.box(0, 0, 10, 10), frame=(0, 0, 10, 10))
    assert find_layout("pebbles").make(ground, Quilting(layout="pebbles", spacing=60)) == ()
