"""The rule for lockstitch seams, and what a load asks for."""

import pytest

from stitchpath.catalog.strengths import thread_strength
from stitchpath.checks.corner_strength import N_PER_KG, check, seam_strength
from stitchpath.model.finding import Finding, Level
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt
from stitchpath.pipeline import plan
from tests.support.checked import plan_of, stage_of, with_pocket


def _found(seam: PocketSeam) -> Finding:
    pocket = Pocket(quilting=(), mouth_stitch=0, seam=seam)
    quilt = Quilt(width=600, length=600, edge_stitch=0, quilting=())
    (finding,) = check(plan(Project(quilt=quilt, pocket=pocket)))
    return finding


def test_ten_stitches_to_the_inch_of_a_four_pound_thread_hold_sixty_pounds() -> None:
    """The worked example of the rule (docs/sources.md, seam strength)."""
    assert seam_strength(10, 4.0) == 60


@pytest.mark.parametrize(
    ("thread_lb", "to_the_inch", "seam_lb"),
    [
        (2.6, 6, 23.4), (2.6, 8, 31.2), (2.6, 10, 39), (2.6, 12, 46.8),
        (2.2, 6, 20), (2.2, 8, 26), (2.2, 10, 33), (2.2, 12, 40),
    ],
)  # fmt: skip
def test_the_published_table_is_reproduced(
    thread_lb: float, to_the_inch: int, seam_lb: float
) -> None:
    """Seam strength of two threads at four stitch lengths (docs/sources.md, seam strength)."""
    assert seam_strength(to_the_inch, thread_lb) == pytest.approx(seam_lb, abs=0.5)


@pytest.mark.parametrize(
    ("tex", "fibre", "breaks_lb"),
    [(27, "spun polyester", 2.2), (24, "core-spun polyester", 2.6)],
)
def test_catalogue_has_the_strengths_that_were_published(
    tex: float, fibre: str, breaks_lb: float
) -> None:
    """The same page; a pound's weight is 4.4482 N."""
    assert thread_strength(tex, fibre) == pytest.approx(breaks_lb * 4.4482216, rel=0.01)


def test_a_bar_of_28_stitches_in_a_2_2_pound_thread_holds_411_newtons() -> None:
    """28 x 2.2 lbf x 1.5 = 92.4 lbf, at 4.4482 N to the lbf 411 N (derived from the rule)."""
    assert seam_strength(28, 2.2 * 4.4482216) == pytest.approx(411, abs=0.5)


def test_strength_is_stitches_times_thread_times_one_and_a_half() -> None:
    """A triangle of legs 20 and 10 in stitches of 2.5 mm, one pass.

    The way is 20 + 10 + the slant of 22.4, so about 21 stitches; ties and corners add a few.
    """
    note = _found(
        PocketSeam(
            corner_side=20, corner_across=10, passes=1, thread_strength=8, stitch_length=2.5
        )
    )
    assert note.level is Level.NOTE
    assert note.limit is None
    assert note.value is not None
    assert 21 <= note.value / (8 * 1.5) <= 30
    assert note.value % (8 * 1.5) == 0
    assert "10 cm of seam about 480 N" in note.text  # 40 stitches of 2.5 mm
    assert "estimate" in note.text


def test_a_load_that_is_too_heavy_is_warned_of() -> None:
    light, heavy = (_found(PocketSeam(load=load, thread_strength=8)) for load in (10.0, 500.0))
    assert light.level is Level.NOTE
    assert light.limit == pytest.approx(10 * N_PER_KG)
    assert heavy.level is Level.WARNING
    assert "the load of 500 kg asks for 4903 N" in heavy.text
    assert heavy.help
    assert heavy.where is not None


def test_without_a_strength_the_weakest_usual_thread_is_assumed() -> None:
    """Cotton: 20 cN/tex, so 5 N at 25 tex and 4 N at the default of 20 (from memory)."""
    assert thread_strength(25, "cotton") == 5
    note = _found(PocketSeam())
    assert "breaks at 4 N (assumed, for cotton of 20 tex)" in note.text
    assert note.value is not None
    stronger = _found(PocketSeam(fibre="spun polyester"))
    assert stronger.value == pytest.approx(note.value * 36 / 20)
    assert "(assumed" not in _found(PocketSeam(thread_strength=5)).text


def test_more_passes_hold_more() -> None:
    once, thrice = (_found(PocketSeam(passes=passes)).value for passes in (1, 3))
    assert once is not None
    assert thrice is not None
    assert once < thrice


def test_without_a_sewn_seam_nothing_is_said() -> None:
    assert list(check(plan_of(stage_of(name="seam"), project=with_pocket()))) == []
    assert list(check(plan_of(stage_of()))) == []
