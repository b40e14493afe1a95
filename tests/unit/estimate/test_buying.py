"""What to buy: cloth by the length, batting by the package."""

import pytest

from stitchpath.catalog.battings import READY_CUT
from stitchpath.estimate import cut_list
from stitchpath.estimate.buying import buy_batting, buy_cloth, shop_length
from stitchpath.model.estimate import Cloth
from stitchpath.model.plan import Cut
from stitchpath.model.project import Batting, Fabric, Project
from stitchpath.model.quilt import Pocket, Quilt
from stitchpath.units import Unit

INCH = 25.4
YARD = 36 * INCH


def _project(width_in: float, length_in: float, **keys: object) -> Project:
    return Project(
        units="in",
        quilt=Quilt(width=width_in * INCH, length=length_in * INCH, seam_allowance=0.5 * INCH),
        fabric=Fabric(shrinkage=0.0, **keys),  # type: ignore[arg-type]
        batting=Batting(shrinkage=0.0),
    )


def _cloths(project: Project) -> dict[str, Cloth]:
    return {cloth.name: cloth for cloth in buy_cloth(cut_list(project), project)}


@pytest.mark.parametrize(
    ("length_mm", "unit", "bought_mm"),
    [
        (4.5 * INCH, "in", YARD / 8),
        (4.6 * INCH, "in", YARD / 4),
        (1000, "cm", 1000),
        (1000.5, "mm", 1100),
        (0, "mm", 0),
    ],
)
def test_cloth_is_bought_by_the_eighth_of_a_yard_or_ten_centimetres(
    length_mm: float, unit: Unit, bought_mm: float
) -> None:
    assert shop_length(length_mm, unit) == pytest.approx(bought_mm)


def test_a_lap_quilt_as_published() -> None:
    """44 x 72 in of 45 in cloth: 73 in for the body, 19 in for the pocket, 2 5/8 yd a colour.

    Published instructions for a throw in a pocket of 18 in (docs/sources.md). One side of the
    body and one of the pocket are of a colour; 92 in are 2.56 yd.
    """
    body = Cut(what="quilt top", width=45 * INCH, length=73 * INCH)
    pocket = Cut(what="pocket", width=19 * INCH, length=19 * INCH)
    project = _project(44, 72, usable_width=45 * INCH, pocket_from="top")
    (cloth,) = buy_cloth([body, pocket], project)
    assert cloth.length / INCH == pytest.approx(92)
    assert cloth.buy / YARD == pytest.approx(2.625)


def test_pieces_of_one_cloth_lie_beside_each_other() -> None:
    """A top of 21 in leaves 19 in beside it on 40 in: the backing needs no cloth of its own."""
    cloths = _cloths(_project(18, 60, backing_from="top"))
    assert list(cloths) == ["top"]
    assert cloths["top"].length / INCH == pytest.approx(61)
    assert len(_cloths(_project(18, 60))) == 2


def test_a_wide_backing_cloth_saves_the_seam() -> None:
    narrow = _cloths(_project(60, 70))["backing"]
    wide = _cloths(_project(60, 70, backing_width=108 * INCH))["backing"]
    assert (len(narrow.pieces), len(wide.pieces)) == (2, 1)
    assert wide.length / INCH == pytest.approx(61)  # turned: 71 in go across


def test_a_print_with_an_up_lies_as_it_is_worn() -> None:
    cloth = _cloths(_project(35, 15, directional=True))["top"]
    assert cloth.pieces[0].width / INCH == pytest.approx(36)
    turned = _cloths(_project(65, 15, directional=True))["top"]
    assert len(turned.pieces) == 2


def test_binding_is_a_cloth_of_its_own_or_part_of_another() -> None:
    bound = Quilt(width=1000, length=1200, edge="bound")
    own = Project(quilt=bound)
    shared = Project(quilt=bound, fabric=Fabric(binding_from="backing"))
    assert [cloth.name for cloth in buy_cloth(cut_list(own), own)] == [
        "top", "backing", "binding",
    ]  # fmt: skip
    names = [piece.what for piece in buy_cloth(cut_list(shared), shared)[1].pieces]
    assert names.count("binding strip") == 5


@pytest.mark.parametrize(
    ("width_in", "length_in", "name"),
    [
        (34, 45, "craft"),
        (36, 54, "crib"),
        (54, 54, "throw"),
        (68, 80, "twin"),
        (100, 115, "king"),
    ],
)
def test_the_smallest_ready_cut_batting_that_holds_it_is_named(
    width_in: float, length_in: float, name: str
) -> None:
    """68 x 80 in: a twin of 72 x 90 in (a published worked example)."""
    cut = Cut(what="quilt batting", width=width_in * INCH, length=length_in * INCH)
    assert buy_batting([cut]).name == name


def test_the_pockets_batting_is_cut_from_the_same() -> None:
    quilt = Cut(what="quilt batting", width=44 * INCH, length=45 * INCH)
    pocket = Cut(what="pocket batting", width=16 * INCH, length=15 * INCH)
    assert buy_batting([quilt, pocket]).name == "crib"
    bought = buy_batting([quilt, Cut(what="pocket batting", width=450, length=500)])
    assert bought.name == "twin"  # 60 x 60 in leave 15 or 16 in beside the quilt's
    assert len(bought.pieces) == 2


def test_what_no_package_holds_has_no_name() -> None:
    assert buy_batting([Cut(what="quilt batting", width=3100, length=3100)]).name == ""


def test_packages_go_from_small_to_large() -> None:
    areas = [ready.width * ready.length for ready in READY_CUT]
    assert areas == sorted(areas)


def test_a_quilt_far_wider_than_its_cloth_is_still_laid() -> None:
    """10 m on cloth of 100 mm, each panel with a seam that leaves little of it."""
    project = Project(
        quilt=Quilt(width=10_000, length=10_000, seam_allowance=200, quilting=()),
        pocket=Pocket(width=9000, length=9000, quilting=()),
        fabric=Fabric(usable_width=100, backing_from="top", pocket_from="top"),
    )
    (cloth,) = buy_cloth(cut_list(project), project)
    assert cloth.buy >= cloth.length > 10_000 * 2 * 100
