"""The few words over svgwrite."""

from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.svg import add_layer, add_texts, new_drawing, plain, written
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
