"""As few runs as Euler's theorem allows, on drawings from textbooks and on random ones.

A connected drawing with 2k places where an odd number of strokes meet takes max(1, k) strokes
and no fewer: L. Euler, Solutio problematis ad geometriam situs pertinentis, 1741 (Königsberg);
J. B. Listing, Vorstudien zur Topologie, 1847 (the number of strokes). From memory. The places
and parts are found here with shapely and networkx, not with the package's own graph.
"""

from itertools import combinations, pairwise
from typing import Final

import networkx as nx
import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import path_length
from stitchpath.layouts import layout_names
from stitchpath.model.line import Line, LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project, RouteRules
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.route import Route
from stitchpath.pipeline import plan
from stitchpath.route.costs import Costs
from stitchpath.route.graph import line_graph
from stitchpath.route.order import order_runs
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import walk_of
from tests.strategies import line_set
from tests.support.lines import line

CUT: Final = Costs(travel="cut")
SETS: Final = 1000
_NEAR_MM: Final = 1e-6


def _strokes(lines: tuple[Line, ...]) -> int:
    """Return the fewest strokes, by counting odd places in each connected part."""
    shapes = [shapely.LineString(one.points) for one in lines]
    touching = nx.Graph()
    touching.add_nodes_from(range(len(lines)))
    touching.add_edges_from(
        pair
        for pair in combinations(range(len(lines)), 2)
        if shapes[pair[0]].distance(shapes[pair[1]]) < _NEAR_MM
    )
    total = 0
    for part in nx.connected_components(touching):
        ends = np.concatenate([lines[number].points[[0, -1]] for number in part])
        away = np.hypot(*(ends[:, None] - ends[None]).transpose(2, 0, 1))
        meeting = (away < _NEAR_MM).sum(axis=1)  # the ends at each end's place, itself too
        odd = sum(1 / count for count in meeting.tolist() if count % 2)
        total += max(1, round(odd) // 2)
    return total


def _drawn(corners: dict[str, tuple[float, float]], edges: str) -> tuple[Line, ...]:
    """Return a line for each edge; the second between two corners is bent, and so on."""
    lines, bends = [], dict.fromkeys(edges.split(), 0)
    for edge in edges.split():
        start, end = np.array(corners[edge[0]]), np.array(corners[edge[1]])
        bend = bends[edge]
        bends[edge] += 1
        across = np.array([-(end - start)[1], (end - start)[0]]) * 0.2 * bend
        points = [start, (start + end) / 2 + across, end] if bend else [start, end]
        lines.append(line(points))
    return tuple(lines)


_HOUSE: Final = {"a": (0, 60), "b": (60, 60), "c": (0, 0), "d": (60, 0), "e": (30, -40)}
_TOWN: Final = {"n": (50, 0), "i": (0, 40), "s": (50, 90), "e": (110, 40)}
_FIVE: Final = {
    name: (60 * np.cos(turn), 60 * np.sin(turn))
    for name, turn in zip("abcde", np.arange(5) * 2 * np.pi / 5, strict=True)
}
_CUBE: Final = {
    "a": (0, 0), "b": (90, 0), "c": (90, 90), "d": (0, 90),
    "e": (30, 30), "f": (60, 30), "g": (60, 60), "h": (30, 60),
}  # fmt: skip
_DRAWINGS: Final = {
    # name: corners, edges, odd places, strokes
    "Koenigsberg's seven bridges": (_TOWN, "ni ni is is ie ne se", 4, 2),
    "the house of St Nicholas": (_HOUSE, "ab bc ca cd da db ce ed", 2, 1),
    "the house without its roof's diagonals": (_HOUSE, "ab bd dc ca ce ed", 2, 1),
    "five corners all joined": (_FIVE, "ab ac ad ae bc bd be cd ce de", 0, 1),
    "a pentagram": (_FIVE, "ac ce eb bd da", 0, 1),
    "four corners all joined": (_HOUSE, "ab bd dc ca ad bc", 4, 2),
    "a cube's edges": (_CUBE, "ab bc cd da ef fg gh he ae bf cg dh", 8, 4),
    "a star of five rays": ({"o": (0, 0)} | _FIVE, "oa ob oc od oe", 6, 3),
}


@pytest.mark.parametrize("name", _DRAWINGS)
def test_textbook_drawings_take_their_known_number_of_runs(name: str) -> None:
    corners, edges, odd, strokes = _DRAWINGS[name]
    lines = _drawn(corners, edges)
    degree = nx.MultiGraph([tuple(edge) for edge in edges.split()]).degree
    assert sum(count % 2 for _, count in degree) == odd  # the known answer, counted anew
    graph = line_graph(lines)
    assert graph.least_runs == strokes
    assert len(find_trails(graph)) == strokes


def test_a_thousand_random_drawings_take_as_many_runs_as_they_must() -> None:
    """Crossings, shared ends, T-junctions, closed lines, rings alone, lines on one another."""
    chance = np.random.default_rng(1736)
    for number in range(SETS):
        lines = line_set(chance)
        graph = line_graph(lines)
        trails = find_trails(graph)
        assert graph.least_runs == _strokes(lines), number
        assert len(trails) == _strokes(lines), number
        walks = [walk_of(graph, trail) for trail in trails]
        sewn = np.zeros(len(lines))
        for walk, trail in zip(walks, trails, strict=True):
            ways = [one.points for one in walk.lines]
            assert all((a[-1] == b[0]).all() for a, b in pairwise(ways)), number
            for leg in trail:
                sewn[leg.line] += abs(leg.end - leg.start)
        np.testing.assert_allclose(sewn, [path_length(one.points) for one in lines])
        drawn = shapely.union_all([shapely.LineString(one.points) for one in lines])
        covered = [shapely.LineString(one.points) for walk in walks for one in walk.lines]
        assert shapely.hausdorff_distance(drawn, shapely.union_all(covered)) < 2e-3, number


def test_straight_lines_that_cross_are_sewn_straight_on() -> None:
    """No run has a corner where none was drawn, as long as only lines cross."""
    chance = np.random.default_rng(45)
    for _ in range(100):
        ends = chance.uniform(0, 100, (8, 2, 2))
        graph = line_graph(tuple(line(way) for way in ends))
        assert all(len(trail) == 1 for trail in find_trails(graph))


# Layouts --------------------------------------------------------------------------------------


def _bounced(columns: int, rows: int) -> tuple[Line, ...]:
    """Return a crosshatch at 45 degrees that meets the edges of a box at their middles."""
    width, height = 20.0 * columns, 20.0 * rows
    lines = []
    for start in range(-rows, columns):
        for lean in (1, -1):
            x0 = 20.0 * start + 10.0
            foot = (x0, 0.0) if lean == 1 else (x0, height)
            shape = shapely.LineString([foot, (foot[0] + height, foot[1] + lean * height)])
            inside = shapely.intersection(shape, shapely.box(0, 0, width, height))
            if inside.length > 1:
                lines.append(line(shapely.get_coordinates(inside)))
    return tuple(lines)


def _route(lines: tuple[Line, ...]) -> Route:
    return order_runs(lines, CUT, middle=(50, 50))


@pytest.mark.parametrize(("columns", "rows"), [(3, 2), (4, 3), (5, 3), (5, 4), (7, 4)])
def test_a_bouncing_crosshatch_of_coprime_sides_is_one_run(columns: int, rows: int) -> None:
    """The gcd rule of mirror curves (Lj. Radović, Mirror curves; S. Jablan, Bridges)."""
    assert np.gcd(columns, rows) == 1
    assert _route(_bounced(columns, rows)).figures.runs == 1


@pytest.mark.parametrize(("columns", "rows"), [(2, 2), (3, 3), (4, 2), (6, 4), (6, 3)])
def test_its_loops_are_as_many_as_the_gcd_before_they_are_let_into_one_another(
    columns: int, rows: int
) -> None:
    """They cross, so that one run sews them all."""
    lines = _bounced(columns, rows)
    bounces = nx.Graph()
    bounces.add_nodes_from(range(len(lines)))
    for one, other in combinations(range(len(lines)), 2):
        ends = lines[one].points[[0, -1], None] - lines[other].points[None, [0, -1]]
        if np.hypot(*ends.reshape(-1, 2).T).min() < _NEAR_MM:
            bounces.add_edge(one, other)
    assert nx.number_connected_components(bounces) == np.gcd(columns, rows)
    assert _route(lines).figures.runs == 1


def _cornered(count: int) -> tuple[Line, ...]:
    """Return diamonds in a square, an odd number each way, so that two lines end in corners."""
    size = 10.0 * (count + 1)
    box = shapely.box(0, 0, size, size)
    starts = [20.0 * number - size for number in range(1, count + 1)]
    falling = [shapely.LineString([(x, 0), (x + size, size)]) for x in starts]
    rising = [shapely.LineString([(x, size), (x + size, 0)]) for x in starts]
    inside = shapely.intersection([*falling, *rising], box)
    return tuple(line(shapely.get_coordinates(shape)) for shape in inside)


def test_diamonds_of_an_even_count_are_sewn_without_stopping_and_of_an_odd_one_not() -> None:
    """D. Pebley, Diamonds on the Run, quiltsforkidsslc.org, 2020."""
    for side in (2, 3, 4):
        lines = _bounced(side, side)
        assert len(lines) // 2 == 2 * side  # each way
        assert _route(lines).figures.runs == 1
    for count in (3, 5, 7):
        lines = _cornered(count)
        assert len(lines) // 2 == count
        assert _route(lines).figures.runs == 2


def test_crosshatch_without_an_edge_line_takes_a_run_for_each_line() -> None:
    lines = [line([(x, 0), (x, 90)]) for x in (20, 40, 60)]
    lines += [line([(0, y), (90, y)]) for y in (20, 40, 60)]
    assert _route(tuple(lines)).figures.runs == 6


def test_crosshatch_with_an_edge_line_takes_no_run_for_it() -> None:
    """Its ring is let in where a line ends on it."""
    lines = [line([(x, 0), (x, 90)]) for x in (20, 40, 60)]
    ring = line([(0, 0), (90, 0), (90, 90), (0, 90), (0, 0)], kind=LineKind.EDGE)
    assert _route((*lines, ring)).figures.runs == 3


@pytest.mark.parametrize("name", sorted({*layout_names()} - {"motif", "text"}))
@pytest.mark.parametrize("edge_stitch", [0.0, 8.0])
def test_every_layout_takes_as_few_runs_as_it_must(name: str, edge_stitch: float) -> None:
    """Each hop with the thread uncut saves one more."""
    quilting = Quilting(layout=name, spacing=47, margin=15)
    quilt = Quilt(width=500, length=640, edge_stitch=edge_stitch, quilting=(quilting,))
    project = Project(
        quilt=quilt, machine=Machine(field=(800, 800)), route=RouteRules(travel="cut")
    )
    (stage,) = plan(project).stages
    (sewn,) = stage.hoopings
    lines = tuple(one for run in sewn.runs for one in run.lines)
    hops = sum(
        bool((after.points[0] != before.points[-1]).any())
        for run in sewn.runs
        for before, after in pairwise(run.lines)
    )
    assert sewn.route.least_runs == _strokes(stage.lines)
    assert len(sewn.runs) == sewn.route.least_runs - hops
    assert sum(path_length(one.points) for one in lines) == pytest.approx(
        sum(path_length(one.points) for one in stage.lines)
    )
