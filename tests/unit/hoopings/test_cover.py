"""Choosing a cover: even where that costs nothing, exact where small, fast where large."""

import numpy as np
import pytest

from stitchpath.cli.files import load_project
from stitchpath.hoopings import cover as cover_module
from stitchpath.hoopings.cover import find_cover
from stitchpath.hoopings.places import Cover
from stitchpath.model.line import Line, LineKind
from stitchpath.pipeline import plan
from tests.support.command_line import DESIGNS
from tests.support.covers import turnable
from tests.support.lines import line

ROOM_MM = 6.0


def _cover(lines: list[Line], sides: tuple[float, float] = (200, 300)) -> Cover:
    found = find_cover(tuple(lines), turnable(*sides), room_mm=ROOM_MM, overlap_mm=ROOM_MM)
    assert found is not None
    return found.cover


def _lattice(width: float, height: float, step: float) -> list[Line]:
    across = [line([(0, y), (width, y)]) for y in np.arange(0, height + 1e-9, step)]
    return across + [line([(x, 0), (x, height)]) for x in np.arange(0, width + 1e-9, step)]


def test_an_even_grid_is_taken_where_nothing_needs_fewer() -> None:
    cover = _cover(_lattice(380, 580, 20))
    columns = sorted({round(place.centre[0], 6) for place in cover})
    rows = sorted({round(place.centre[1], 6) for place in cover})
    assert (columns, rows) == ([95, 285], [145, 435])


def test_a_border_takes_no_field_in_its_middle() -> None:
    frame = [line([(0, 0), (560, 0), (560, 560), (0, 560), (0, 0)])]
    assert len(_cover(frame, (200, 200))) == 8


def test_without_a_field_for_what_is_whole_there_is_no_cover() -> None:
    whole = line([(0, 0), (400, 0)], whole=((0, 1),))
    found = find_cover((whole,), turnable(200, 300), room_mm=ROOM_MM, overlap_mm=ROOM_MM)
    assert found is None


def test_many_motifs_astride_any_grid_are_each_held_by_one_field() -> None:
    motifs = [
        Line(
            points=np.array([(x, y), (x + 30.0, y + 30.0)]),
            kind=LineKind.QUILTING,
            stitch_mm=2.5,
            motif=number,
        )
        for number, (x, y) in enumerate((x, y) for x in range(0, 600, 37) for y in (0, 41))
    ]
    found = find_cover(tuple(motifs), turnable(200, 300), room_mm=ROOM_MM, overlap_mm=ROOM_MM)
    assert found is not None
    assert all(len(chain.places) == 1 for chain in found.chains)


def test_no_programme_is_run_where_the_bound_by_counting_is_met(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """3 x 2 square fields; the same lattice with a corner longer has no such bound."""
    asked: list[int] = []
    monkeypatch.setattr(
        cover_module, "find_sets", lambda boxes, _kinds: asked.append(len(boxes))
    )
    assert len(_cover(_lattice(560, 380, 20), (200, 200))) == 6
    assert asked == []
    _cover([*_lattice(560, 380, 20), line([(560, 380), (600, 420)])], (200, 200))
    assert asked != []


def test_no_programme_is_run_on_a_king_size_quilt(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        pytest.fail("a programme was asked")

    monkeypatch.setattr(cover_module, "find_sets", refuse)
    assert len(_cover(_lattice(2727, 2727, 101), (250, 400))) <= 80


def test_plan_tells_its_bound() -> None:
    planned = plan(load_project(DESIGNS / "ferry-throw.toml"))
    counts = [(stage.bound, len(stage.hoopings)) for stage in planned.stages]
    assert all(bound <= count <= 1.1 * bound for bound, count in counts)
