"""How far hoops reach beyond the piece (geometry)."""

from dataclasses import replace

import pytest

from stitchpath.estimate.overhang import hoop_overhang
from stitchpath.model.hooping import Hooping, Overhang
from stitchpath.model.plan import Stage
from tests.support.plans import small_plan


def _stage(centre: tuple[float, float], turn: float = 0.0) -> Stage:
    """Return a stage on a quilt of 360 x 480 with one field of 200 x 260."""
    stage = small_plan().stages[0]
    hooping = Hooping(number=1, field=(200.0, 260.0), centre=centre, turn_deg=turn)
    return replace(stage, hoopings=(replace(stage.hoopings[0], hooping=hooping),))


@pytest.mark.parametrize(
    ("centre", "turn", "reach"),
    [
        ((180, 240), 0, 0),
        ((80, 240), 0, 20),  # 100 to the left of 80
        ((180, 400), 0, 50),  # 130 below 400, of 480
        ((280, 240), 90, 50),  # turned: 130 to the right of 280, of 360
        ((180, 90), 180, 40),
    ],
)
def test_the_farthest_corner_counts(
    centre: tuple[float, float], turn: float, reach: float
) -> None:
    assert hoop_overhang([_stage(centre, turn)]) == pytest.approx(reach)


def test_a_ring_that_reaches_farther_counts() -> None:
    stage = _stage((80, 240))
    (sewn,) = stage.hoopings
    past = replace(sewn.hooping, overhang=Overhang(left=40.0, top=3.0))
    assert hoop_overhang([replace(stage, hoopings=(replace(sewn, hooping=past),))]) == 40


def test_nothing_sewn_reaches_nowhere() -> None:
    assert hoop_overhang([]) == 0.0


def test_the_farthest_of_all_stages_counts() -> None:
    assert hoop_overhang([_stage((80, 240)), _stage((180, 400))]) == pytest.approx(50)
