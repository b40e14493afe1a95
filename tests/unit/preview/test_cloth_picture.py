"""The picture of a cloth with its pieces, read back as XML by the standard library."""

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from stitchpath.model.estimate import BattingToBuy, Cloth, LaidPiece
from stitchpath.model.plan import Plan
from stitchpath.model.project import Fabric
from stitchpath.preview import draw_batting, draw_cloth
from tests.support.plans import small_plan

_SVG = "{http://www.w3.org/2000/svg}"
TOP = LaidPiece(what="quilt top", x=0.0, y=0.0, width=700.0, length=900.0)
STRIP = LaidPiece(what="binding strip", x=700.0, y=0.0, width=63.5, length=1016.0)
ACROSS = LaidPiece(what="binding strip", x=0.0, y=1016.0, width=1016.0, length=38.1)
SCRAP = LaidPiece(
    what="a scrap that has no room for its name", x=800.0, y=0.0, width=9, length=9
)
CLOTH = Cloth(
    name="top", usable_width=1016, length=1080, buy=1143, pieces=(TOP, STRIP, ACROSS, SCRAP)
)


def _drawn(plan: Plan, cloth: Cloth = CLOTH) -> ET.Element:
    return ET.fromstring(draw_cloth(plan, cloth))  # noqa: S314 - made here


def _words(root: ET.Element) -> list[str]:
    return [
        "".join(text.itertext()).replace("\u00a0", " ") for text in root.iter(f"{_SVG}text")
    ]


def _pieces(root: ET.Element) -> list[ET.Element]:
    (layer,) = (group for group in root.iter(f"{_SVG}g") if group.get("id") == "pieces")
    return layer.findall(f"{_SVG}path")


def test_every_piece_is_drawn_where_it_lies() -> None:
    paths = _pieces(_drawn(small_plan()))
    assert len(paths) == len(CLOTH.pieces)
    for path, piece in zip(paths, CLOTH.pieces, strict=True):
        start = re.match(r"m(-?[\d.]+) (-?[\d.]+) (-?[\d.]+) 0 0 (-?[\d.]+)", path.get("d", ""))
        assert start is not None
        place = [float(number) / 100 for number in start.groups()]
        assert place == pytest.approx([piece.x, piece.y, piece.width, piece.length], abs=0.01)


def test_pieces_are_named_with_their_cut_sizes() -> None:
    words = _words(_drawn(small_plan()))
    assert "quilt top" in words
    assert "27 5/8 in x 35 1/2 in" in words  # 27.559 and 35.433 in, rounded up
    assert "2 1/2 in x 40 in" in words
    assert "binding strip, 40 in x 1 1/2 in" in words


def test_a_narrow_piece_is_written_on_downwards() -> None:
    root = _drawn(small_plan())
    turned = [
        "".join(group.itertext())
        for group in root.iter(f"{_SVG}g")
        if "rotate(90)" in group.get("transform", "")
    ]
    assert len(turned) == 1
    assert turned[0].startswith("binding strip")


def test_what_has_no_room_is_not_written() -> None:
    assert not any("scrap" in words for words in _words(_drawn(small_plan())))


def test_the_cloth_is_told_with_what_to_buy() -> None:
    words = " ".join(_words(_drawn(small_plan())))
    assert "top cloth, 40 in between the selvedges: buy 1 1/4 yd" in words
    assert "the print's up" not in words


def test_a_print_with_an_up_says_where_it_is() -> None:
    plan = small_plan()
    project = replace(plan.project, fabric=Fabric(directional=True))
    words = " ".join(_words(_drawn(replace(plan, project=project))))
    assert "the print's up is at the top" in words


def test_batting_is_drawn_likewise() -> None:
    batting = BattingToBuy(name="twin", width=1828.8, length=2286, pieces=(TOP,))
    root = ET.fromstring(draw_batting(small_plan(), batting))  # noqa: S314 - made here
    assert len(_pieces(root)) == 1
    assert any("a ready-cut twin" in words for words in _words(root))
