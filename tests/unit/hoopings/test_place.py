"""Choosing hoopings: how many, which way round, in which order, and what cannot be done."""

import numpy as np
import pytest

from stitchpath.hoopings import place_hoopings
from stitchpath.layouts import lay_lines
from stitchpath.model.finding import Level
from stitchpath.model.hooping import Hooping
from stitchpath.model.line import Line, LineKind
from stitchpath.model.project import (
    HoopingRules,
    Machine,
    Pocket,
    PocketSeam,
    Project,
    Quilt,
    Quilting,
)
from stitchpath.pieces import make_tasks
from tests.support.lines import line


def _project(field: tuple[float, float] = (200, 300), *, turn: bool = True) -> Project:
    return Project(
        quilt=Quilt(width=900, length=1000, edge_stitch=0),
        machine=Machine(field=field),
        hoopings=HoopingRules(overlap=6, turn=turn),
    )


def _hoopings(lines: list[Line], project: Project) -> list[Hooping]:
    (task,) = make_tasks(project)
    placed, findings = place_hoopings(task, tuple(lines), project)
    assert not findings
    return [hooping for hooping, _ in placed]


def test_without_lines_there_are_no_hoopings() -> None:
    assert _hoopings([], _project()) == []


def test_hoopings_are_numbered_from_one_and_begin_in_the_middle() -> None:
    lines = [line([(50, y), (850, y)]) for y in range(50, 1000, 100)]
    hoopings = _hoopings(lines, _project())
    assert [hooping.number for hooping in hoopings] == list(range(1, len(hoopings) + 1))
    away = [np.hypot(h.centre[0] - 450, h.centre[1] - 500) for h in hoopings]
    assert np.all(np.diff(away) > -1e-6)


def test_the_field_is_turned_where_that_needs_fewer() -> None:
    """One line of 290 across: upright 2 columns of 200, turned one of 300."""
    lines = [line([(300, 500), (590, 500)])]
    (hooping,) = _hoopings(lines, _project())
    assert hooping.turn_deg == 90
    assert hooping.field == (200, 300)


def test_the_field_stays_upright_where_turning_gains_nothing() -> None:
    (hooping,) = _hoopings([line([(400, 500), (500, 500)])], _project())
    assert hooping.turn_deg == 0


def test_the_field_stays_upright_where_turning_is_not_allowed() -> None:
    lines = [line([(300, 500), (590, 500)])]
    hoopings = _hoopings(lines, _project(turn=False))
    assert [hooping.turn_deg for hooping in hoopings] == [0, 0]


def test_empty_places_are_skipped() -> None:
    """Lines along two sides of a box of 3 x 3 fields leave four of them empty."""
    lines = [line([(100, 100), (100, 950)]), line([(100, 100), (650, 100)])]
    assert len(_hoopings(lines, _project())) == 3 + 3 - 1


def test_the_hoop_lies_in_the_middle_of_what_it_sews() -> None:
    (hooping,) = _hoopings([line([(300, 400), (440, 520)])], _project())
    assert hooping.centre == (370, 460)


def _seam(
    field: tuple[float, float], corner: tuple[float, float], *, turn: bool = True
) -> Project:
    side, across = corner
    return Project(
        quilt=Quilt(width=900, length=1000, quilting=()),
        pocket=Pocket(seam=PocketSeam(corner_side=side, corner_across=across)),
        machine=Machine(field=field),
        hoopings=HoopingRules(turn=turn),
    )


@pytest.mark.parametrize("field", [(200, 300), (130, 180), (100, 100), (61, 70), (35, 30)])
def test_a_corner_triangle_is_sewn_in_one_hooping(field: tuple[float, float]) -> None:
    project = _seam(field, (22.225, 12.7))
    task = make_tasks(project)[-1]
    lines, _ = lay_lines(task)
    placed, findings = place_hoopings(task, lines, project)
    assert not findings
    (seam,) = lines
    for first, last in seam.whole:
        triangle = seam.points[first : last + 1].tolist()
        holders = [
            part.points.tolist()
            for _, parts in placed
            for part in parts
            if all(vertex in part.points.tolist() for vertex in triangle)
        ]
        assert len(holders) == 1


def test_a_triangle_larger_than_the_field_is_an_error_that_names_a_field() -> None:
    project = _seam((60, 60), (70, 40))
    task = make_tasks(project)[-1]
    lines, _ = lay_lines(task)
    placed, (finding,) = place_hoopings(task, lines, project)
    assert placed == ()
    assert (finding.code, finding.level, finding.stage) == ("hoop-fit", Level.ERROR, "seam")
    assert finding.text == (
        "a part of 40 mm x 70 mm must be sewn in one hooping, and the field of 60 mm x 60 mm "
        "is too small by 10.1 mm"
    )
    assert finding.help == "use a field of at least 100x100 mm, or make the part smaller"
    assert finding.value == pytest.approx(70 - 60 + 0.15)  # the room that rounding needs


def test_how_much_a_field_lacks_is_told_for_the_better_way_round() -> None:
    """90 x 70 into 100 x 60: turned it lacks 10 mm, upright 30."""
    for turn, lack in ((True, 10.15), (False, 30.15)):
        project = _seam((100, 60), (90, 70), turn=turn)
        task = make_tasks(project)[-1]
        _, (finding,) = place_hoopings(task, lay_lines(task)[0], project)
        assert finding.value == pytest.approx(lack)


def test_a_part_that_no_common_field_holds_is_told_without_naming_one() -> None:
    big = line([(0, 0), (500, 0), (500, 500), (0, 0)], kind=LineKind.SEAM, whole=((0, 3),))
    project = _project()
    _, (finding,) = place_hoopings(make_tasks(project)[0], (big,), project)
    assert finding.help == "use a larger field, or make the part smaller"


def test_a_part_that_fits_but_not_in_an_even_grid_is_not_called_too_large() -> None:
    project = _seam((100, 100), (90, 90))
    task = make_tasks(project)[-1]
    placed, (finding,) = place_hoopings(task, lay_lines(task)[0], project)
    assert placed == ()
    assert "holds it, but not in an even grid" in finding.text
    assert "too small" not in finding.text


def test_lines_of_a_quilt_are_given_to_their_hoopings_once() -> None:
    project = Project(
        quilt=Quilt(width=500, length=500, edge_stitch=0, quilting=(Quilting(spacing=100),)),
        hoopings=HoopingRules(overlap=0),
    )
    (task,) = make_tasks(project)
    lines, _ = lay_lines(task)
    placed, _ = place_hoopings(task, lines, project)
    sewn = sum(
        float(np.hypot(*np.diff(part.points, axis=0).T).sum())
        for _, parts in placed
        for part in parts
    )
    assert sewn == pytest.approx(10 * 500)
