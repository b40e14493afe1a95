"""Runs of stitch files over several hoopings: divided at needle points, cuts first."""

from itertools import pairwise

import numpy as np
import pytest

from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.hoopings.place import place_hoopings
from stitchpath.hoopings.split import cut_line
from stitchpath.model.line import Line, run_of
from stitchpath.model.machine import Machine
from stitchpath.model.project import HoopingRules, Project
from stitchpath.model.quilt import Quilt
from stitchpath.pieces import make_tasks
from tests.support.file_lines import file_line
from tests.support.lines import line

LONG = file_line([(x, 100) for x in range(20, 381, 3)])
"""A straight run of 360 mm, a stitch of 3 mm."""


def project_of(*field: float, overlap: float = 6.0) -> Project:
    quilt = Quilt(width=400, length=200, edge_stitch=0, quilting=())
    machine = Machine(field=(field[0], field[1]))
    return Project(quilt=quilt, machine=machine, hoopings=HoopingRules(overlap=overlap))


def parts_of(lines: tuple[Line, ...], project: Project) -> list[list[Line]]:
    (task,) = make_tasks(project)
    return [list(parts) for _, parts in place_hoopings(task, lines, project).hoopings]


def pairs(line: Line) -> set[tuple[float, ...]]:
    points = line.points.tolist()
    return {(*one, *other) for one, other in pairwise(points)}


@pytest.mark.parametrize("overlap", [0.0, 6.0, 20.0])
def test_parts_of_a_run_are_needle_points_of_it_and_cover_every_stitch(overlap: float) -> None:
    hooped = parts_of((LONG,), project_of(150, 150, overlap=overlap))
    assert len(hooped) == 3
    parts = [part for parts in hooped for part in parts]
    assert set.union(*map(pairs, parts)) == pairs(LONG)
    total = sum(len(part.points) - 1 for part in parts)
    assert 0 <= total - len(pairs(LONG)) <= 2 * overlap / 3 + 2 * (overlap > 0)


def test_a_copy_is_divided_between_its_runs_first() -> None:
    """Two runs of 150 mm, 10 mm apart: a field of 160 mm holds each of them whole."""
    runs = tuple(file_line([(start + x, 100) for x in range(0, 151, 3)]) for start in (20, 180))
    hooped = parts_of(runs, project_of(160, 160))
    assert sorted(len(part.points) for parts in hooped for part in parts) == [51, 51]
    assert len(hooped) == 2


def test_what_one_field_holds_lies_in_one_hooping() -> None:
    assert len(parts_of((LONG,), project_of(361, 100))) == 1


def test_a_stitch_longer_than_the_reach_of_both_fields_is_divided_by_a_needle_point() -> None:
    long = file_line([(50, 100), (60, 100), (140, 100), (150, 100)])
    first, last = cut_line(long, [100.0 - 50.0], overlap_mm=6.0)
    assert first.points.tolist() == [[50, 100], [60, 100], [100, 100]]
    assert last.points.tolist() == [[100, 100], [140, 100], [150, 100]]


def test_a_needle_point_put_into_a_move_is_come_to_by_a_move() -> None:
    long = file_line([(50, 100), (60, 100), (140, 100), (150, 100)], moved=[2])
    first, last = cut_line(long, [50.0], overlap_mm=0.0)
    assert run_of(first).moved.tolist() == [False, False, True]
    assert run_of(last).moved.tolist() == [False, True, False]


def test_fields_of_file_runs_lie_beside_the_grid_so_that_all_round_the_same_way() -> None:
    (task,) = make_tasks(project_of(150, 150))
    placed = place_hoopings(task, (LONG,), project_of(150, 150))
    for hooping, parts in placed.hoopings:
        inside = hooping.to_field(parts[0].points) / GRID_MM
        beside = np.abs(inside - np.rint(inside))
        assert np.allclose(beside, 0.25, atol=1e-6)
        assert np.abs(inside).max() * GRID_MM <= 75


@pytest.mark.parametrize("first", [39, 40, 41])
def test_a_join_lies_on_the_needle_point_nearest_to_a_crossing(first: int) -> None:
    """Lines across at every 20 mm: a join may move by up to half a stitch to a needle point."""
    across = tuple(line([(x, 50), (x, 150)]) for x in range(first, 380, 20))
    project = project_of(150, 150)
    (task,) = make_tasks(project)
    placed = place_hoopings(task, (LONG, *across), project)
    on_run = [join for join in placed.joins if join.place[1] == 100]
    assert len(on_run) == 2
    for join in on_run:
        x = join.place[0]
        assert (x - 20) % 3 == pytest.approx(0, abs=1e-6)
        nearest = min(abs(x - place) for place in range(first, 380, 20))
        assert nearest <= 1.5
        assert join.is_on_crossing == (nearest <= GRID_MM)
