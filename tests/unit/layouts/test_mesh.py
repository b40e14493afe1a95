"""Meshes: even triangles over any domain, and trees along their edges."""

import numpy as np
import pytest
import shapely

from stitchpath.layouts._mesh import Mesh, make_mesh
from stitchpath.layouts._tree import go_round, inner_edges, random_tree

SQUARE = shapely.box(0, 0, 200, 150)
HOLED = SQUARE.difference(shapely.box(60, 40, 130, 100))
TEETH = [shapely.box(x, 0, x + 6, 90) for x in (0, 80, 194)]
COMB = shapely.union_all([shapely.box(0, 0, 200, 4), *TEETH])
WEDGE = shapely.Polygon([(0, 0), (300, 0), (300, 12)])
DOMAINS = (SQUARE, HOLED, COMB, WEDGE)


def mesh_of(domain: shapely.Geometry) -> Mesh:
    assert isinstance(domain, shapely.Polygon)
    return make_mesh(domain, pitch_mm=20, rng=np.random.Generator(np.random.PCG64(1)))


def triangles_of(mesh: Mesh) -> list[shapely.Polygon]:
    third = len(mesh.tail) // 3
    corners = np.stack([mesh.tail[:third], mesh.head[:third], mesh.apex[:third]], axis=1)
    return [shapely.Polygon(mesh.points[corner]) for corner in corners]


@pytest.mark.parametrize("domain", DOMAINS)
def test_triangles_cover_a_domain_once(domain: shapely.Polygon) -> None:
    triangles = triangles_of(mesh_of(domain))
    assert sum(one.area for one in triangles) == pytest.approx(domain.area, rel=0.02)
    assert shapely.union_all(triangles).symmetric_difference(domain).area < 0.02 * domain.area


@pytest.mark.parametrize("domain", DOMAINS)
def test_no_triangle_is_wide(domain: shapely.Polygon) -> None:
    for triangle in triangles_of(mesh_of(domain)):
        a, b, c = np.hypot(*np.diff(shapely.get_coordinates(triangle), axis=0).T)
        if shapely.Point(_circle_middle(triangle)).within(domain):
            assert a * b * c / 4 / triangle.area <= 0.66 * 20  # the circle's radius, Euclid


def _circle_middle(triangle: shapely.Polygon) -> tuple[float, float]:
    (ax, ay), (bx, by), (cx, cy), _ = shapely.get_coordinates(triangle).tolist()
    matrix = 2 * np.array([[bx - ax, by - ay], [cx - ax, cy - ay]])
    squares = np.array([bx**2 + by**2 - ax**2 - ay**2, cx**2 + cy**2 - ax**2 - ay**2])
    x, y = np.linalg.solve(matrix, squares).tolist()
    return x, y


@pytest.mark.parametrize("domain", DOMAINS)
def test_no_edge_inside_joins_two_points_of_the_rim(domain: shapely.Polygon) -> None:
    mesh = mesh_of(domain)
    inside = mesh.twin >= 0
    assert not (mesh.is_rim[mesh.tail[inside]] & mesh.is_rim[mesh.head[inside]]).any()


@pytest.mark.parametrize("domain", DOMAINS)
def test_half_edges_know_one_another(domain: shapely.Polygon) -> None:
    mesh = mesh_of(domain)
    paired = np.flatnonzero(mesh.twin >= 0)
    np.testing.assert_array_equal(mesh.twin[mesh.twin[paired]], paired)
    np.testing.assert_array_equal(mesh.tail[mesh.twin[paired]], mesh.head[paired])
    turned = np.flatnonzero(mesh.turned >= 0)
    np.testing.assert_array_equal(mesh.tail[mesh.turned[turned]], mesh.tail[turned])
    np.testing.assert_array_equal(mesh.head[mesh.turned[turned]], mesh.apex[turned])
    np.testing.assert_array_equal(mesh.tail[mesh.side_after(turned)], mesh.head[turned])


@pytest.mark.parametrize("domain", DOMAINS)
def test_a_tree_joins_all_points_inside_and_has_no_ring(domain: shapely.Polygon) -> None:
    # a tree on n points has n - 1 edges, and the way round it passes each half-edge once
    mesh = mesh_of(domain)
    is_tree = random_tree(mesh, np.random.Generator(np.random.PCG64(2)))
    assert is_tree.sum() == 2 * ((~mesh.is_rim).sum() - 1)
    assert is_tree[inner_edges(mesh)].sum() == (~mesh.is_rim).sum() - 1
    (tour,) = go_round(mesh, is_tree)
    np.testing.assert_array_equal(np.sort(tour), np.flatnonzero(~mesh.is_rim[mesh.tail]))


def test_a_domain_smaller_than_a_triangle_gets_one_point_inside() -> None:
    mesh = mesh_of(shapely.Polygon([(0, 0), (3, 0), (0, 3)]))
    assert (~mesh.is_rim).sum() == 1


def test_a_domain_that_shaking_would_spoil_is_taken_as_it_is() -> None:
    slit = SQUARE.difference(shapely.Polygon([(100, -1), (100.01, -1), (100, 149.95)]))
    assert isinstance(slit, shapely.Polygon)
    assert sum(one.area for one in triangles_of(mesh_of(slit))) <= slit.area + 1
