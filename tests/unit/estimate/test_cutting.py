"""What to cut: finished size, shrinkage, draw-in, seams, binding, room to hoop."""

import pytest

from stitchpath.estimate import cut_list
from stitchpath.estimate.cutting import binding_cloth, cloth_width, source_of
from stitchpath.model.plan import Cut
from stitchpath.model.project import Batting, Fabric, Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.pipeline import plan

INCH = 25.4


def _project(
    edge: str = "turned", *, pocket: bool = True, cloth: float = 0, filling: float = 0
) -> Project:
    return Project(
        quilt=Quilt(
            width=1000,
            length=1400,
            edge="bound" if edge == "bound" else "turned",
            seam_allowance=7,
        ),
        pocket=Pocket(width=400, length=420) if pocket else None,
        fabric=Fabric(shrinkage=cloth),
        batting=Batting(shrinkage=filling),
    )


def _cuts(project: Project) -> dict[str, Cut]:
    return {cut.what: cut for cut in cut_list(project)}


def test_a_turned_edge_needs_its_seam_allowance_on_both_sides() -> None:
    cuts = _cuts(_project())
    for what in ("quilt top", "quilt backing", "quilt batting"):
        assert (cuts[what].width, cuts[what].length, cuts[what].count) == (1014, 1414, 1)


def test_a_bound_edge_needs_none_but_four_inches_to_hoop_at_the_back() -> None:
    """Backing at least 4 in larger over all (docs/sources.md)."""
    cuts = _cuts(_project("bound"))
    assert (cuts["quilt top"].width, cuts["quilt top"].length) == (1000, 1400)
    assert cuts["quilt backing"].width == pytest.approx(1101.6)
    assert cuts["quilt batting"].length == pytest.approx(1501.6)


@pytest.mark.parametrize("edge", ["turned", "bound"])
def test_the_pocket_is_turned_whatever_the_quilts_edge_is(edge: str) -> None:
    cuts = _cuts(_project(edge))
    assert (cuts["pocket"].width, cuts["pocket"].length, cuts["pocket"].count) == (414, 434, 2)
    assert cuts["pocket batting"].count == 1


def test_without_a_pocket_none_is_cut() -> None:
    assert len(_cuts(_project(pocket=False))) == 3


@pytest.mark.parametrize(("cloth", "filling"), [(0.03, 0.0), (0.0, 0.03), (0.03, 0.02)])
def test_layers_shrink_as_one_and_their_seams_do_not(cloth: float, filling: float) -> None:
    """A yard that loses 3 % comes to 36 * 0.97 = 34.92 in, so 1000 mm need 1000 / 0.97."""
    cuts = _cuts(_project(cloth=cloth, filling=filling))
    for what in ("quilt top", "quilt backing", "quilt batting"):
        assert cuts[what].width == pytest.approx(1000 / 0.97 + 14)
        assert (cuts[what].width - 14) * 0.97 == pytest.approx(1000)


def test_a_quilt_that_was_measured_before_and_after_a_wash() -> None:
    """70 x 70 in became 68 x 68 in: to end at 68 in, 70 in have to be cut (a wash test)."""
    project = Project(
        quilt=Quilt(width=68 * INCH, length=68 * INCH, edge="bound"),
        fabric=Fabric(shrinkage="2.9 %"),  # type: ignore[arg-type]
        batting=Batting(shrinkage=0.0),
    )
    top = _cuts(project)["quilt top"]
    assert top.width / INCH == pytest.approx(70, abs=0.05)


def test_a_quilt_is_made_larger_by_what_its_batting_shrinks() -> None:
    """For 90 in after a wash, of a batting that loses 5 %, make the top 95 in (a quilter)."""
    project = Project(
        quilt=Quilt(width=90 * INCH, length=90 * INCH, edge="bound"),
        fabric=Fabric(shrinkage=0.0),
        batting=Batting(shrinkage=0.05),
    )
    assert _cuts(project)["quilt top"].width / INCH == pytest.approx(95, abs=0.3)


def test_quilting_draws_in_on_top_of_that() -> None:
    """A sample of 20 in, quilted in a grid of 2 in, came to 19 3/4 in or a little less."""
    layouts = (Quilting(spacing=2 * INCH),)
    project = Project(
        quilt=Quilt(
            width=19.75 * INCH,
            length=19.75 * INCH,
            edge="bound",
            edge_stitch=0,
            quilting=layouts,
        ),
        fabric=Fabric(shrinkage=0.0),
        batting=Batting(shrinkage=0.0),
    )
    (top, *_) = plan(project).cutting
    assert top.width / INCH == pytest.approx(20, abs=0.05)


@pytest.mark.parametrize(
    ("width_in", "length_in", "strips"),
    [(50, 60, 6), (96, 110, 11), (42.75, 63.5, 6)],
)
def test_binding_strips_as_in_worked_examples(
    width_in: float, length_in: float, strips: int
) -> None:
    """From cloth of 40 in: 50 x 60 in 6, 96 x 110 in 11, 42 3/4 x 63 1/2 in 6.

    Three quilters' pages. The first gives the joins 2 in of each strip and adds nothing, the
    others add up to 12 in and nothing for joins; counting both takes one more at the most.
    """
    project = Project(
        quilt=Quilt(width=width_in * INCH, length=length_in * INCH, edge="bound"),
        fabric=Fabric(usable_width=40 * INCH, binding_width=2.25 * INCH),
    )
    strip = _cuts(project)["binding strip"]
    assert strips <= strip.count <= strips + 1
    assert (strip.width, strip.length) == (40 * INCH, 2.25 * INCH)
    around = 2 * (width_in + length_in)
    assert strip.count * (40 - 2.25) >= around + 10


def test_a_turned_edge_has_no_binding() -> None:
    assert "binding strip" not in _cuts(_project())


def test_what_is_cut_from_one_cloth_follows_it() -> None:
    def project(**keys: object) -> Project:
        return Project(quilt=Quilt(width=500, length=500), fabric=Fabric(**keys))  # type: ignore[arg-type]

    plain = project()
    parts = ("top", "backing", "pocket")
    assert [source_of(plain, part) for part in parts] == list(parts)
    assert binding_cloth(plain) == "binding"
    chained = project(backing_from="top", pocket_from="backing", binding_from="pocket")
    assert [source_of(chained, part) for part in parts] == ["top"] * 3
    assert binding_cloth(chained) == "top"


def test_the_backings_cloth_may_be_wider() -> None:
    fabric = Fabric(usable_width=1000, backing_width=2700)
    project = Project(quilt=Quilt(width=500, length=500), fabric=fabric)
    assert [cloth_width(project, name) for name in ("top", "backing")] == [1000, 2700]
    alike = Project(quilt=Quilt(width=500, length=500), fabric=Fabric(usable_width=900))
    assert cloth_width(alike, "backing") == 900
