"""How the quilt folds: the trade's own sizes, and thickness counted.

Source: docs/sources.md, the throw that folds into its pocket; the block is geometry.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.estimate.folding import fold_quilt
from stitchpath.model.estimate import Folding
from stitchpath.model.project import Batting, Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt
from stitchpath.units import Unit

INCH = 25.4


def _fold(
    quilt: tuple[float, float],
    pocket: tuple[float, float],
    thickness: float,
    units: Unit = "mm",
) -> Folding:
    made = Pocket(width=pocket[0], length=pocket[1], seam=PocketSeam(inset=5))
    whole = Project(
        units=units,
        quilt=Quilt(width=quilt[0], length=quilt[1]),
        pocket=made,
        batting=Batting(thickness=thickness),
    )
    return fold_quilt(whole, made)


def test_a_fold_is_thirds_across_and_as_many_along_as_leave_the_most_room() -> None:
    """900 x 1200 folded 3 x 4: 300 x 300 and 12 layers of 2 mm.

    Width: 350 - 2 * 5 - (300 + 24) = 16; depth: 350 - 5 - (300 + 12) = 33.
    """
    fold = _fold((900, 1200), (350, 350), 2)
    assert (fold.across, fold.along) == (3, 4)
    assert (fold.width, fold.length, fold.height) == (300, 300, 24)
    assert fold.ease == pytest.approx(16)


def test_depth_decides_where_it_is_less() -> None:
    """600 x 1200 in a pocket of 350: 200 wide, so folding on for depth leaves more room.

    4 along: 345 - (300 + 12) = 33 of the depth. 6 along: 200 x 200, 36 high, leaves 104 of the
    width and 127 of the depth; 5 along leaves 340 - 230 = 110 and 345 - 255 = 90.
    """
    fold = _fold((600, 1200), (350, 350), 2)
    assert fold.along == 6
    assert fold.ease == pytest.approx(104)


def test_a_thick_small_quilt_is_folded_in_halves() -> None:
    """200 x 300 of 39 mm in 250 x 400. Halves: 240 - 100 - 78 = 62, 395 - 300 - 39 = 56.

    Thirds have three layers: 240 - 66.7 - 117 = 56.3, 395 - 300 - 58.5 = 36.5.
    """
    fold = _fold((200, 300), (250, 400), 39)
    assert (fold.across, fold.along, fold.height) == (2, 1, 78)
    assert fold.ease == pytest.approx(56)


def test_the_trade_rule_of_sizes_leaves_no_room_for_thickness() -> None:
    """A 14 in pocket to a body of 35 x 56 in: 56 / 4 is 14, no slack at all.

    So such throws are stuffed; a block of some thickness has to be folded once more.
    """
    side = 14 * INCH
    fold = _fold((35 * INCH, 56 * INCH), (side, side), 2)
    assert fold.along == 5
    # 35 / 3 = 11.67 in of 13.6 in inside the seam, less 15 layers of 2 mm
    assert fold.ease == pytest.approx(side - 10 - 35 * INCH / 3 - 30)


def test_three_parts_by_four_of_no_thickness_fit_a_pocket_of_one_part() -> None:
    """The simplest is three blocks wide and four long: a pocket of a block and its seam."""
    block = 350.0
    fold = _fold((3 * block, 4 * block), (block + 15, block + 10), 0.1)
    assert (fold.across, fold.along) == (3, 4)
    assert fold.ease > 0


@pytest.mark.parametrize("thickness", [0.5, 1.0, 2.0, 4.0, 8.0])
def test_thicker_batting_never_leaves_more_room(thickness: float) -> None:
    thin = _fold((900, 1200), (350, 350), thickness)
    thick = _fold((900, 1200), (350, 350), thickness * 1.5)
    assert thick.ease < thin.ease


sizes = st.tuples(st.floats(300, 2000), st.floats(300, 2500))
pockets = st.tuples(st.floats(150, 600), st.floats(150, 600))


@given(quilt=sizes, pocket=pockets, thickness=st.floats(0.5, 8))
def test_the_smallest_pocket_works_and_a_smaller_one_does_not(
    quilt: tuple[float, float], pocket: tuple[float, float], thickness: float
) -> None:
    found = _fold(quilt, pocket, thickness).smallest_pocket
    assert _fold(quilt, found, thickness).ease >= -1e-6
    smaller = (found[0] - 5.001, found[1] - 5.001)
    assert _fold(quilt, smaller, thickness).ease < 0


@given(quilt=sizes, pocket=pockets, thickness=st.floats(0.5, 4))
def test_the_largest_quilt_goes_in_and_a_larger_one_does_not(
    quilt: tuple[float, float], pocket: tuple[float, float], thickness: float
) -> None:
    found = _fold(quilt, pocket, thickness).largest_quilt
    if min(found) >= 20:
        assert _fold(found, pocket, thickness).ease >= -1e-6
    larger = (found[0] + 5.001, found[1] + 5.001)
    assert _fold(larger, pocket, thickness).ease < 0 or min(found) < 20


def test_a_pocket_that_holds_nothing_says_so() -> None:
    assert _fold((900, 1200), (60, 60), 39).largest_quilt == (0, 0)


def test_steps_are_told_in_the_makers_unit() -> None:
    steps = _fold((1066.8, 1371.6), (406.4, 381), 2.5, "in").steps
    assert len(steps) == 6
    assert "14 in wide" in steps[1]
    assert "13 1/2 in at a time, until all 4 parts" in steps[3]
    assert "1 3/16 in thick" in steps[-1]


def test_halves_are_folded_in_to_meet() -> None:
    steps = _fold((200, 300), (250, 400), 39).steps
    assert len(steps) == 5  # nothing is folded along
    assert steps[1] == "fold the left side in to the middle, 50 mm of it"


def test_layers_are_the_parts_times_the_thickness() -> None:
    fold = _fold((900, 1200), (350, 350), 2)
    assert fold.height == fold.across * fold.along * 2
    assert replace(fold, steps=()).width * fold.across == pytest.approx(900)
