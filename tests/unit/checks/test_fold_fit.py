"""Does the folded quilt go into its pocket: the trade's own sizes, and thickness counted."""

import pytest

from stitchpath.checks.fold_fit import best_fold, check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.model.project import Batting, Pocket, PocketSeam, Project, Quilt

INCH = 25.4


def _project(
    quilt: tuple[float, float], pocket: tuple[float, float], thickness: float
) -> tuple[Project, Pocket]:
    made = Pocket(width=pocket[0], length=pocket[1], seam=PocketSeam(inset=5))
    whole = Project(
        quilt=Quilt(width=quilt[0], length=quilt[1]),
        pocket=made,
        batting=Batting(thickness=thickness),
    )
    return whole, made


def _findings(project: Project) -> list[Finding]:
    return list(check(Plan(project=project, stages=(), cutting=(), findings=())))


def test_without_a_pocket_nothing_is_said() -> None:
    assert _findings(Project(quilt=Quilt(width=900, length=1200))) == []


def test_a_fold_is_thirds_across_and_as_many_along_as_leave_the_most_room() -> None:
    """900 x 1200 folded 3 x 4: 300 x 300 and 12 layers of 2 mm.

    Width: 350 - 2 * 5 - (300 + 24) = 16; depth: 350 - 5 - (300 + 12) = 33.
    """
    fold = best_fold(*_project((900, 1200), (350, 350), 2))
    assert (fold.along, fold.width, fold.length, fold.height) == (4, 300, 300, 24)
    assert fold.ease == pytest.approx(16)


def test_depth_decides_where_it_is_less() -> None:
    """600 x 1200 in a pocket of 350: 200 wide, so folding on for depth leaves more room.

    4 along: 345 - (300 + 12) = 33 of the depth. 6 along: 200 x 200, 36 high, leaves 104 of the
    width and 127 of the depth; 5 along leaves 340 - 230 = 110 and 345 - 255 = 90.
    """
    fold = best_fold(*_project((600, 1200), (350, 350), 2))
    assert fold.along == 6
    assert fold.ease == pytest.approx(104)


def test_the_trade_rule_of_sizes_leaves_no_room_for_thickness() -> None:
    """A 14 in pocket to a body of 35 x 56 in (docs/sources.md): 56 / 4 is 14, no slack at all.

    So such throws are stuffed; a block of some thickness has to be folded once more.
    """
    side = 14 * INCH
    project, pocket = _project((35 * INCH, 56 * INCH), (side, side), 2)
    fold = best_fold(project, pocket)
    assert fold.along == 5
    # 35 / 3 = 11.67 in of 13.6 in inside the seam, less 15 layers of 2 mm
    assert fold.ease == pytest.approx(side - 10 - 35 * INCH / 3 - 30)
    (note,) = _findings(project)
    assert note.level is Level.NOTE


def test_the_same_throw_in_thick_batting_does_not_go_in() -> None:
    side = 14 * INCH
    project, _ = _project((35 * INCH, 56 * INCH), (side, side), 6)
    (warning,) = _findings(project)
    assert warning.level is Level.WARNING
    assert warning.value is not None
    assert warning.value < 0
    assert "the pocket is too small by" in warning.text


def test_the_pocket_that_is_advised_is_large_enough() -> None:
    project, _ = _project((900, 1200), (305, 305), 3)
    (warning,) = _findings(project)
    assert warning.help.startswith("make the pocket 3")
    sides = warning.help.removeprefix("make the pocket ").split(",")[0].split(" x ")
    width, length = (float(side.removesuffix(" mm")) for side in sides)
    assert best_fold(*_project((900, 1200), (width, length), 3)).ease >= 0


@pytest.mark.parametrize("thickness", [0.5, 1.0, 2.0, 4.0, 8.0])
def test_thicker_batting_never_leaves_more_room(thickness: float) -> None:
    thin = best_fold(*_project((900, 1200), (350, 350), thickness))
    thick = best_fold(*_project((900, 1200), (350, 350), thickness * 1.5))
    assert thick.ease < thin.ease
