"""Thread to buy: by colour, with waste; sources in docs/sources.md, thread."""

from dataclasses import replace

import pytest

from stitchpath.estimate.thread import buy_thread
from stitchpath.model.plan import Figures, Stage
from stitchpath.model.supplies import Supplies
from stitchpath.model.thread import ThreadPair
from tests.support.plans import small_plan


def _stage(top: str, bobbin: str, top_mm: float, bobbin_mm: float) -> Stage:
    figures = Figures(top_thread_mm=top_mm, bobbin_thread_mm=bobbin_mm)
    pair = ThreadPair(top=top, bobbin=bobbin)
    return replace(small_plan().stages[0], figures=figures, thread=pair)


@pytest.mark.parametrize(
    ("parts_mm", "waste", "total_mm"),
    [
        ((1300, 4100), 0.15, 6210),  # 130 + 410 cm, +15 %: 621 cm (measured by unravelling)
        ((3.51 * 914.4, 3.12 * 914.4), 0.15, 7.62 * 914.4),  # 6.63 yd, +15 %: 7.62 yd
    ],
)
def test_waste_is_added_as_in_worked_examples(
    parts_mm: tuple[float, float], waste: float, total_mm: float
) -> None:
    (thread,) = buy_thread([_stage("teal", "teal", *parts_mm)], Supplies(thread_waste=waste))
    assert thread.buy_mm == pytest.approx(total_mm, rel=0.002)


def test_a_colour_is_bought_once_wherever_it_is_sewn() -> None:
    stages = [_stage("teal", "linen", 10e3, 11e3), _stage("linen", "teal", 3e3, 4e3)]
    teal, linen = buy_thread(stages, Supplies(thread_waste=0.0))
    assert (teal.colour, teal.top_mm, teal.bobbin_mm, teal.buy_mm) == (
        "#008080",
        10e3,
        4e3,
        14e3,
    )
    assert (linen.top_mm, linen.bobbin_mm) == (3e3, 11e3)


def test_spools_are_whole_ones() -> None:
    def spools(metres: float) -> int:
        stage = _stage("teal", "linen", metres * 1000, 0)
        return buy_thread([stage], Supplies(thread_waste=0.0, spool_metres=500.0))[0].spools

    assert [spools(metres) for metres in (0, 1, 500, 501, 1500.1)] == [0, 1, 1, 2, 4]


def test_a_kilometre_weighs_its_tex() -> None:
    (thread,) = buy_thread(
        [_stage("teal", "teal", 5e5, 5e5)], Supplies(thread_waste=0.0, thread_tex=25.0)
    )
    assert thread.grams == pytest.approx(25)
