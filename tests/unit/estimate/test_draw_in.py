"""How much quilting draws in, against measured samples and whole quilts.

Source: docs/sources.md, cloth and cutting.
"""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.estimate.draw_in import MOST, draw_in, stage_draw_in
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan

INCH = 25.4


@pytest.mark.parametrize(
    ("spacing_in", "before_in", "after_in"),
    [
        (4, (9, 20), (9, 19.875)),
        (2, (9, 20), (8.875, 19.75)),
        (1.5, (9, 20), (8.75, 19.5)),
    ],
)
def test_samples_come_out_no_smaller_than_estimated(
    spacing_in: float, before_in: tuple[float, float], after_in: tuple[float, float]
) -> None:
    """Samples of 9 x 20 in after quilting: no side is shorter than what was allowed for."""
    kept = 1 - draw_in(spacing_in * INCH)
    for before, after in zip(before_in, after_in, strict=True):
        assert after - 0.14 <= before * kept <= after + 1e-9


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ((83, 105), (80, 102)),
        ((57, 68), (55.5, 66.5)),
        ((66.75, 84.625), (64.75, 82.75)),
        ((69, 69), (67.25, 67.25)),
    ],
)
def test_whole_quilts_lose_no_more_than_the_most(
    before: tuple[float, float], after: tuple[float, float]
) -> None:
    """Tops and the quilts they became: 2.2 to 3.6 % less."""
    for top, quilt in zip(before, after, strict=True):
        assert 0.02 < 1 - quilt / top <= MOST + 5e-4
        assert draw_in(4 * INCH) < 1 - quilt / top <= draw_in(INCH) + 5e-4


@given(one=st.floats(3, 3000), other=st.floats(3, 3000))
def test_closer_lines_never_draw_in_less(one: float, other: float) -> None:
    close, wide = sorted((one, other))
    assert 0 < draw_in(wide) <= draw_in(close) <= MOST


def test_no_quilting_draws_nothing_in() -> None:
    assert draw_in(math.inf) == 0.0


def test_a_grid_is_taken_for_its_own_spacing_and_one_set_of_lines_for_twice_as_wide() -> None:
    def drawn(layout: str, spacing: float) -> float:
        layouts = (Quilting(layout=layout, spacing=spacing),)
        whole = Quilt(width=1000, length=1200, edge_stitch=0, quilting=layouts)
        at_once = Machine(field=(1000, 1200))
        return stage_draw_in(plan(Project(quilt=whole, machine=at_once)).stages[0])

    assert drawn("crosshatch", 50) == pytest.approx(draw_in(50), rel=0.1)
    assert drawn("diagonal", 40) == pytest.approx(draw_in(80), rel=0.05)


def test_a_stage_without_quilting_is_not_drawn_in() -> None:
    stage = plan(Project(quilt=Quilt(width=300, length=300, quilting=()))).stages[0]
    assert stage.lines  # the edge's
    assert stage_draw_in(stage) == 0.0
    assert stage_draw_in(replace(stage, lines=())) == 0.0
