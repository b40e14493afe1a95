"""How few fields are found, against a plain integer programme and covers known by hand."""

from typing import TypeAlias

import numpy as np
import pytest

from stitchpath.hoopings.cover import Covered, find_cover
from stitchpath.hoopings.places import Kind
from stitchpath.model.line import Line, LineKind
from tests.support.covers import turnable
from tests.support.least_fields import least_fields
from tests.support.lines import line

Paths: TypeAlias = list[list[tuple[float, float]]]

UNIT = 20.0
"""All lengths of the cases are multiples of it, and it is the overlap."""


def _u(width: int, depth: int) -> Paths:
    """Three sides, as a pocket is sewn on."""
    return [[(0, 0), (0, depth), (width, depth), (width, 0)]]


def _frame(width: int, height: int) -> Paths:
    return [[(0, 0), (width, 0), (width, height), (0, height), (0, 0)]]


def _lattice(width: int, height: int, step: int) -> Paths:
    across: Paths = [[(0, y), (width, y)] for y in range(0, height + 1, step)]
    down: Paths = [[(x, 0), (x, height)] for x in range(0, width + 1, step)]
    return across + down


def _stairs(steps: int, going: int, rise: int) -> Paths:
    path: list[tuple[float, float]] = [(0, 0)]
    for step in range(steps):
        path += [((step + 1) * going, step * rise), ((step + 1) * going, (step + 1) * rise)]
    return [path]


def _comb(teeth: int, step: int, length: int) -> Paths:
    down: Paths = [[(step * at, 0), (step * at, length)] for at in range(teeth)]
    return [[(0, 0), (step * (teeth - 1), 0)], *down]


def _cross(width: int, height: int) -> Paths:
    return [[(0, height / 2), (width, height / 2)], [(width / 2, 0), (width / 2, height)]]


def _bars(count: int, step: int, width: int, shift: int) -> Paths:
    return [[(at * shift, at * step), (at * shift + width, at * step)] for at in range(count)]


SMALL, SLIM, SQUARE, LONG = (100, 160), (100, 200), (120, 120), (120, 300)
CASES = [
    *((_u(width, depth), field)
      for width, depth in ((240, 240), (360, 320), (520, 400), (640, 200))
      for field in (SMALL, SQUARE)),
    (_u(400, 400), LONG),
    (_u(520, 400), SLIM),
    *((_frame(width, height), field) for width, height in ((200, 200), (320, 320), (480, 320))
      for field in (SMALL, SQUARE, SLIM)),
    (_frame(520, 520), LONG),
    (_frame(800, 640), SMALL),
    (_frame(500, 440), SQUARE),
    (_u(900, 860), SMALL),
    *((_lattice(width, height, 40), field)
      for width, height in ((240, 240), (280, 200), (320, 280)) for field in (SMALL, SQUARE)),
    (_lattice(280, 280, 40), SLIM),
    (_lattice(400, 320, 80), (160, 200)),
    *((_stairs(steps, 80, 60), field) for steps, field in ((3, SMALL), (5, SQUARE), (6, SLIM))),
    (_stairs(4, 120, 40), SMALL),
    *((_comb(teeth, 80, 180), field) for teeth, field in ((3, SMALL), (5, SLIM), (4, SQUARE))),
    *((_cross(400, 320), field) for field in (SMALL, SQUARE, LONG)),
    *((_bars(count, 60, 140, 40), field)
      for count, field in ((4, SMALL), (6, SLIM), (5, SQUARE))),
]  # fmt: skip


def _covered(lines: list[Line], kinds: tuple[Kind, ...]) -> Covered:
    found = find_cover(tuple(lines), kinds, room_mm=UNIT, overlap_mm=UNIT)
    assert found is not None
    return found


def test_there_are_forty_cases_and_more() -> None:
    assert len(CASES) >= 40


@pytest.mark.parametrize("case", range(len(CASES)))
def test_fields_are_as_few_as_a_plain_programme_finds(case: int) -> None:
    paths, field = CASES[case]
    lines = [line(path) for path in paths]
    least = least_fields([each.points for each in lines], [], field, UNIT)
    found = _covered(lines, turnable(*field))
    assert len(found.cover) == least <= 20
    assert found.bound <= least


@pytest.mark.parametrize("seed", range(6))
def test_motifs_are_held_by_as_few_fields_as_a_plain_programme_finds(seed: int) -> None:
    chance = np.random.default_rng(seed)
    corners = chance.integers(0, 16, (8, 2)) * UNIT
    boxes = np.column_stack([corners, corners + chance.integers(1, 4, (8, 2)) * UNIT])
    lines = [
        Line(
            points=np.array([box[:2], box[2:]]),
            kind=LineKind.QUILTING,
            stitch_mm=2.5,
            motif=number,
        )
        for number, box in enumerate(boxes)
    ]
    found = _covered(lines, turnable(*SMALL))
    assert len(found.cover) == least_fields([], boxes.tolist(), SMALL, UNIT)


def test_four_fields_laid_round_like_a_windmill_do_what_no_grid_does() -> None:
    """By hand: 200 x 300 round a hole of 100 x 100, overlapping by 20, in a square of 480."""
    edge = 480.0
    frame = [line([(0, 0), (edge, 0), (edge, edge), (0, edge), (0, 0)])]
    inner = [line([(20, y), (460, y)]) for y in (40, 90, 390, 440)]
    found = _covered(frame + inner, turnable(200, 300))
    assert len(found.cover) == 4
    assert {place.kind.turn_deg for place in found.cover} == {0.0, 90.0}
