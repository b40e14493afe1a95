"""Choosing hoopings: how many, which way round, in which order, and what cannot be done."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.hoopings import place_hoopings
from stitchpath.layouts import lay_lines
from stitchpath.model.finding import Level
from stitchpath.model.hooping import Hooping
from stitchpath.model.line import Line, LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.project import HoopingRules, Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt, Quilting
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
    placed = place_hoopings(task, tuple(lines), project)
    assert not placed.findings
    return [hooping for hooping, _ in placed.hoopings]


def test_without_lines_there_are_no_hoopings() -> None:
    assert _hoopings([], _project()) == []


def test_hoopings_are_numbered_from_one_and_begin_in_the_middle() -> None:
    lines = [line([(50, y), (850, y)]) for y in range(50, 1000, 100)]
    hoopings = _hoopings(lines, _project())
    assert [hooping.number for hooping in hoopings] == list(range(1, len(hoopings) + 1))
    away = [np.hypot(h.centre[0] - 450, h.centre[1] - 500) for h in hoopings]
    assert away[0] == min(away)


def test_the_field_is_turned_where_that_needs_fewer() -> None:
    """One line of 290 across: upright 2 columns of 200, turned one of 300."""
    lines = [line([(300, 500), (590, 500)])]
    (hooping,) = _hoopings(lines, _project())
    assert hooping.turn_deg % 180 == 90
    assert hooping.field == (200, 300)


def test_the_field_stays_upright_where_turning_gains_nothing() -> None:
    (hooping,) = _hoopings([line([(400, 500), (500, 500)])], _project())
    assert hooping.turn_deg == 0


def test_the_field_stays_upright_where_turning_is_not_allowed() -> None:
    lines = [line([(300, 500), (590, 500)])]
    hoopings = _hoopings(lines, _project(turn=False))
    assert [hooping.turn_deg % 180 for hooping in hoopings] == [0, 0]


def test_empty_places_are_skipped() -> None:
    """Lines along two sides of a box of 3 x 3 fields leave four of them empty."""
    lines = [line([(100, 100), (100, 950)]), line([(100, 100), (650, 100)])]
    assert len(_hoopings(lines, _project(turn=False))) == 3 + 3 - 1


def test_the_hoop_lies_in_the_middle_of_what_it_sews() -> None:
    (hooping,) = _hoopings([line([(300, 400), (440, 520)])], _project())
    assert hooping.centre == (370, 460)


def _seam(
    field: tuple[float, float], corner: tuple[float, float], *, turn: bool = True
) -> Project:
    side, across = corner
    return Project(
        quilt=Quilt(width=900, length=1000, quilting=()),
        pocket=Pocket(
            width=160, length=120, seam=PocketSeam(corner_side=side, corner_across=across)
        ),
        machine=Machine(field=field),
        hoopings=HoopingRules(turn=turn),
    )


@pytest.mark.parametrize("field", [(200, 300), (130, 180), (100, 100), (61, 70), (35, 30)])
def test_a_corner_triangle_is_sewn_in_one_hooping(field: tuple[float, float]) -> None:
    project = _seam(field, (22.225, 12.7))
    task = make_tasks(project)[-1]
    lines = lay_lines(task).lines
    placed = place_hoopings(task, lines, project)
    assert not placed.findings
    (seam,) = lines
    for first, last in seam.whole:
        triangle = seam.points[first : last + 1].tolist()
        holders = [
            part.points.tolist()
            for _, parts in placed.hoopings
            for part in parts
            if all(vertex in part.points.tolist() for vertex in triangle)
        ]
        assert len(holders) == 1


def test_a_triangle_larger_than_the_field_is_an_error_that_names_a_field() -> None:
    project = _seam((60, 60), (70, 40))
    task = make_tasks(project)[-1]
    lines = lay_lines(task).lines
    placed = place_hoopings(task, lines, project)
    (finding,) = placed.findings
    assert placed.hoopings == ()
    assert (finding.code, finding.level, finding.stage) == ("hoop-fit", Level.ERROR, "seam")
    assert finding.text == (
        "a part of 40 mm x 70 mm must be sewn in one hooping, and the field of 60 mm x 60 mm "
        "is too small by 10.1 mm"
    )
    assert finding.help == "use a field of at least 100x100 mm, or make the part smaller"
    assert finding.value == pytest.approx(70 - 60 + 0.15)  # the room that rounding needs


def test_the_field_is_named_as_it_is_however_much_is_kept_clear() -> None:
    """60 wide, of which 3 on both sides are kept clear: 16.1 too narrow for 70."""
    project = _seam((60, 60), (70, 40))
    project = replace(project, hoopings=replace(project.hoopings, room=3))
    task = make_tasks(project)[-1]
    (finding,) = place_hoopings(task, lay_lines(task).lines, project).findings
    assert finding.text == (
        "a part of 40 mm x 70 mm must be sewn in one hooping, and the field of 60 mm x 60 mm "
        "is too small by 16.1 mm, with 3 mm kept clear on all sides"
    )
    assert finding.help == (
        "use a field of at least 100x100 mm or a smaller `hoopings.room`, or make the part "
        "smaller"
    )


def test_how_much_a_field_lacks_is_told_for_the_better_way_round() -> None:
    """90 x 70 into 100 x 60: turned it lacks 10 mm, upright 30."""
    for turn, lack in ((True, 10.15), (False, 30.15)):
        project = _seam((100, 60), (90, 70), turn=turn)
        task = make_tasks(project)[-1]
        (finding,) = place_hoopings(task, lay_lines(task).lines, project).findings
        assert finding.value == pytest.approx(lack)


def test_a_part_that_no_common_field_holds_is_told_without_naming_one() -> None:
    big = line([(0, 0), (500, 0), (500, 500), (0, 0)], kind=LineKind.SEAM, whole=((0, 3),))
    project = _project()
    (finding,) = place_hoopings(make_tasks(project)[0], (big,), project).findings
    assert finding.help == "use a larger field, or make the part smaller"


def test_a_part_that_fits_only_without_the_overlap_beside_it_is_not_called_too_large() -> None:
    """98 x 98 in a field of 100 x 100 mm, and 3 mm of the line beside it are sewn too."""
    part = [(0, 0), (98, 0), (98, 98), (0, 98), (0, 0), (-300, 0)]
    project = _project((100, 100))
    given = line(part, kind=LineKind.SEAM, whole=((0, 4),))
    (finding,) = place_hoopings(make_tasks(project)[0], (given,), project).findings
    assert "holds it, but not with the overlap of a join beside it" in finding.text
    assert finding.help.startswith("use a larger field or a smaller overlap")
    assert "too small" not in finding.text


def _several(*fields: tuple[float, float]) -> Project:
    return Project(
        quilt=Quilt(width=900, length=1000, edge_stitch=0), machine=Machine(fields=fields)
    )


def test_of_several_fields_those_are_used_that_need_fewest_hoopings() -> None:
    lines = [line([(50, 500), (750, 500)])]
    hoopings = _hoopings(lines, _several((100, 100), (200, 250)))
    assert [hooping.field for hooping in hoopings] == [(200, 250)] * 3


def test_of_fields_that_need_as_few_the_smaller_ring_is_used() -> None:
    """One line of 240 and one of 60 a long way off."""
    lines = [line([(50, 500), (290, 500)]), line([(800, 100), (860, 100)])]
    hoopings = _hoopings(lines, _several((200, 250), (100, 100)))
    assert sorted(hooping.field for hooping in hoopings) == [(100, 100), (200, 250)]
    assert {hooping.ring for hooping in hoopings} == {(140, 140), (240, 290)}


def test_joins_are_told_with_their_hoopings() -> None:
    lines = tuple(line([(50, y), (750, y)]) for y in (500, 560))
    project = _project((100, 200), turn=False)
    placed = place_hoopings(make_tasks(project)[0], lines, project)
    centres = {hooping.number: hooping.centre[0] for hooping, _ in placed.hoopings}
    assert len(placed.joins) == 2 * (len(centres) - 1)
    for join in placed.joins:
        one, other = join.hoopings
        assert one < other
        assert min(centres[one], centres[other]) < join.place[0]
        assert join.place[0] < max(centres[one], centres[other])
        assert not join.is_on_crossing


def test_lines_of_a_quilt_are_given_to_their_hoopings_once() -> None:
    project = Project(
        quilt=Quilt(width=500, length=500, edge_stitch=0, quilting=(Quilting(spacing=100),)),
        hoopings=HoopingRules(overlap=0),
    )
    (task,) = make_tasks(project)
    lines = lay_lines(task).lines
    placed = place_hoopings(task, lines, project).hoopings
    sewn = sum(
        float(np.hypot(*np.diff(part.points, axis=0).T).sum())
        for _, parts in placed
        for part in parts
    )
    assert sewn == pytest.approx(10 * 500)
