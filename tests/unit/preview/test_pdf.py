"""Pages of a PDF: the same bytes each time, any name printable."""

import io

import numpy as np
import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.pdf import Ink, Pages, fitted, printable, text_width


def page_of(words: str) -> bytes:
    pages = Pages(words)
    pages.begin(210, 297)
    pages.text((10, 10), words, 4)
    pages.lines([np.array([[10.0, 20.0], [110.0, 20.0]])], Ink())
    return pages.finished()


@given(words=st.text(max_size=60))
def test_any_text_becomes_letters_that_the_fonts_have(words: str) -> None:
    shown = printable(words)
    shown.encode("cp1252")  # WinAnsiEncoding, ISO 32000 annex D; from memory
    assert shown.isprintable()


@pytest.mark.parametrize(
    "name",
    ["Gull Rock", "Crème “gull” (no. 7) \\ )", "🧵🪡", "שלום עולם", "Łódź №7", "漢字", "é"],
)
def test_any_name_can_be_written_and_read_again(name: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(page_of(name)))
    assert reader.pages[0].extract_text().strip() == printable(name).strip()
    assert reader.metadata is not None
    assert reader.metadata.title == printable(name)


def test_same_drawing_has_the_same_bytes() -> None:
    assert page_of("Heron runner") == page_of("Heron runner")


def test_letters_without_a_like_are_told_by_a_question_mark() -> None:
    assert printable("漢字 e\u0301") == "?? e"
    assert printable("ﬁve") == "five"


def test_long_text_is_cut_to_its_room() -> None:
    words = fitted("a name that goes on and on", 4, 20)
    assert words.endswith("...")
    assert text_width(words, 4) <= 20
    assert fitted("anything", 4, 1) == "..."


def test_nothing_is_drawn_off_a_page() -> None:
    with pytest.raises(ValueError, match="a page is begun"):
        Pages("x").text((0, 0), "x", 4)
