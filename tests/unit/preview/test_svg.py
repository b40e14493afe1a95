"""The few words for drawing."""

from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.marks import box
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.svg import (
    Pen,
    add_layer,
    add_lines,
    add_texts,
    group,
    new_drawing,
    plain,
    written,
)
from tests.support.svg_reader import SVG

anything = st.text(st.characters(codec=None, exclude_categories=[]), max_size=40)


@given(anything)
def test_any_text_comes_back_as_text(text: str) -> None:
    drawing = new_drawing((0, 0, 10, 10))
    add_texts(add_layer(drawing, "words", text), [(text, (1, 1))], 1.0)
    root = ET.fromstring(written(drawing).encode())  # noqa: S314 - our own text
    (found,) = root.iter(f"{SVG}text")
    assert (found.text or "") == plain(text)
    assert not list(found)


def test_what_is_added_to_a_layer_later_is_drawn_in_it() -> None:
    drawing = new_drawing((0, 0, 10, 10))
    first = add_layer(drawing, "first", "one & <two>", transform="translate(1,2)")
    add_layer(drawing, "second", "")
    add_lines(first, box(0, 0, 1, 1), Pen(fill="#ffffff"), Pen(stroke="#000000", width=0.5))
    root = ET.fromstring(written(drawing))  # noqa: S314 - our own text
    one, two = root.findall(f"{SVG}g")
    assert (one.get("id"), one.get("transform")) == ("first", "translate(1,2)")
    assert one.findtext(f"{SVG}title") == "one & <two>"
    filled, stroked = one.findall(f"{SVG}path")
    assert filled.get("d") == stroked.get("d")
    assert (filled.get("fill"), filled.get("stroke")) == ("#ffffff", None)
    assert (stroked.get("stroke"), stroked.get("stroke-width")) == ("#000000", "50")
    assert (two.get("id"), two.findtext(f"{SVG}title")) == ("second", "")


def test_an_attribute_cannot_end_early() -> None:
    drawing = new_drawing((0, 0, 10, 10))
    drawing.add(group(fill='"><script>&').written())
    (found,) = ET.fromstring(written(drawing)).findall(f"{SVG}g")  # noqa: S314 - our own text
    assert found.get("fill") == '"><script>&'
    assert not list(found)


def test_nothing_to_draw_leaves_a_layer_as_it_is() -> None:
    layer = group(id="bare")
    add_lines(layer, Polylines.of([]), Pen(fill="#ffffff"))
    add_texts(layer, [], 1.0)
    assert layer.written() == '<g id="bare" />'


def test_plain_text_has_no_character_that_xml_forbids() -> None:
    # Source: XML 1.0 (W3C), production 2, Char: tab, line feed, carriage return, U+0020 to
    # U+D7FF, U+E000 to U+FFFD, U+10000 to U+10FFFF.
    forbidden = [*range(9), 0xB, 0xC, *range(0xE, 0x20), 0xD800, 0xDFFF, 0xFFFE, 0xFFFF]
    assert plain("".join(map(chr, forbidden))) == ""
    assert plain("a\ud800b\x00c") == "abc"


def test_plain_text_keeps_letters_of_every_script_and_one_blank_between_words() -> None:
    assert plain(" Émile\t\n 縫い物 \U0001f9f5 & <b> ") == "Émile 縫い物 \U0001f9f5 & <b>"


def test_plain_text_cannot_turn_the_direction_of_what_follows() -> None:
    assert plain("a\u202eb\u2066c") == "a b c"
