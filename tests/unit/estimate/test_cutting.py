"""What to cut: finished size, shrinkage, seams, room to hoop."""

import pytest

from stitchpath.estimate import cut_list
from stitchpath.model.plan import Cut
from stitchpath.model.project import Batting, Fabric, Pocket, Project, Quilt


def _cuts(edge: str, *, pocket: bool = True, shrinkage: float = 0) -> dict[str, Cut]:
    project = Project(
        quilt=Quilt(
            width=1000,
            length=1400,
            edge="bound" if edge == "bound" else "turned",
            seam_allowance=7,
        ),
        pocket=Pocket(width=400, length=420) if pocket else None,
        fabric=Fabric(shrinkage=f"{shrinkage} %"),  # type: ignore[arg-type]
        batting=Batting(shrinkage="0 %"),  # type: ignore[arg-type]
    )
    return {cut.what: cut for cut in cut_list(project)}


def test_a_turned_edge_needs_its_seam_allowance_on_both_sides() -> None:
    cuts = _cuts("turned")
    for what in ("quilt top", "quilt backing", "quilt batting"):
        assert (cuts[what].width, cuts[what].length, cuts[what].count) == (1014, 1414, 1)


def test_a_bound_edge_needs_none_but_four_inches_to_hoop_at_the_back() -> None:
    """Backing at least 4 in larger over all (docs/sources.md)."""
    cuts = _cuts("bound")
    assert (cuts["quilt top"].width, cuts["quilt top"].length) == (1000, 1400)
    assert cuts["quilt backing"].width == pytest.approx(1101.6)
    assert cuts["quilt batting"].length == pytest.approx(1501.6)


@pytest.mark.parametrize("edge", ["turned", "bound"])
def test_the_pocket_is_turned_whatever_the_quilts_edge_is(edge: str) -> None:
    cuts = _cuts(edge)
    assert (cuts["pocket"].width, cuts["pocket"].length, cuts["pocket"].count) == (414, 434, 2)
    assert cuts["pocket batting"].count == 1


def test_without_a_pocket_none_is_cut() -> None:
    assert len(_cuts("turned", pocket=False)) == 3


def test_cloth_that_shrinks_is_cut_larger_and_its_seams_are_not() -> None:
    """A yard that loses 3 % comes to 36 * 0.97 = 34.92 in, so 1000 mm need 1000 / 0.97."""
    cuts = _cuts("turned", shrinkage=3)
    assert cuts["quilt top"].width == pytest.approx(1000 / 0.97 + 14)
    assert cuts["quilt batting"].width == 1014
    finished = (cuts["quilt top"].width - 14) * 0.97
    assert finished == pytest.approx(1000)
