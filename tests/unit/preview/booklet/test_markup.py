"""HTML that text cannot break."""

import json
import re
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.booklet.markup import joined, name_text, script_json, style_string, tag
from stitchpath.preview.svg import plain
from tests.support.html_reader import read_html

_TEXTS = st.text(st.characters(), max_size=40) | st.sampled_from(
    ["</script>", "<!--", "]]>", "\u2028", "&amp;", "a\"b'c", "\x00", "\ud800", "\u202eabc"]
)


@given(_TEXTS)
def test_any_text_is_read_back_as_text(text: str) -> None:
    (element,) = read_html(tag("p", text))
    assert element.text == " ".join(plain(text).split())


@given(_TEXTS)
def test_any_text_is_read_back_from_an_attribute(text: str) -> None:
    (element,) = read_html(tag("p", title=text))
    assert element.attributes == {"title": element.attributes["title"]}
    assert (element.attributes["title"] or "").strip() == plain(text)


@given(st.recursive(_TEXTS, lambda inside: st.lists(inside, max_size=3)))
def test_json_in_a_script_comes_back_and_cannot_end_it(value: object) -> None:
    written = script_json({"value": value})
    assert not set(written) & set("<>&\u2028\u2029")
    assert json.loads(written) == {"value": value}
    reader = HTMLParser()
    reader.feed(f"<script>{written}</script>")
    assert reader.rawdata == ""


@given(_TEXTS)
def test_string_of_css_is_one_string(text: str) -> None:
    # Source: CSS Syntax Module Level 3 (W3C), 4.3.5 and 4.3.7: a string ends at its quote or at
    # a new line; six hex digits after a backslash are a code point, however they go on.
    inside = style_string(text)[1:-1]
    assert not re.search(r'["\n\r\f<]', inside)
    read = re.sub(r"\\([0-9a-f]{6})", lambda found: chr(int(found[1], 16)), inside)
    assert read == plain(text)


def test_markup_is_not_escaped_again() -> None:
    assert tag("p", joined("a < b", tag("b", "c"))) == "<p>a &lt; b<b>c</b></p>"


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (True, "<input checked>"),
        (False, "<input>"),
        (None, "<input>"),
        (0, '<input checked="0">'),
    ],
)
def test_attributes_may_stand_alone_or_be_left_out(
    value: float | bool | None, written: str
) -> None:
    assert tag("input", checked=value) == written


def test_name_is_kept_apart_in_its_own_direction() -> None:
    assert name_text("שלום <b>") == "<bdi>שלום &lt;b&gt;</bdi>"
