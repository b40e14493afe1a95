"""Letters of PDF files: any name is written, and none is a question mark."""

import io
import unicodedata
from itertools import product

import pymupdf_fonts
import pypdf
import pytest
from bidi import get_display as other_display
from bidi.algorithm import get_base_level, get_display
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase.ttfonts import TTFontFile

from stitchpath.preview.brackets import with_marks, without_marks
from stitchpath.preview.letters import fitted, is_standard, line_of
from stitchpath.preview.pdf import Pages

HELD = set(TTFontFile(io.BytesIO(pymupdf_fonts.myfont("figo"))).charToGlyph)
"""What the open font has letters for."""


def _read_again(words: str) -> str:
    pages = Pages("letters")
    pages.begin(210, 297)
    pages.text((10, 10), words, 4)
    text: str = pypdf.PdfReader(io.BytesIO(pages.finished())).pages[0].extract_text()
    return text.strip()


@pytest.mark.parametrize("name", ["Gull Rock", "Crème “gull” (no. 7) \\ )", "Fünf Möwen", "é"])
def test_western_letters_are_in_the_fonts_that_every_reader_has(name: str) -> None:
    # Source: ISO 32000-1, annex D, WinAnsiEncoding; from memory.
    assert line_of(name).font == "Helvetica"
    assert line_of(name, bold=True).font == "Helvetica-Bold"
    assert line_of(name).letters == name == _read_again(name)


@pytest.mark.parametrize("name", ["Θάλασσα και αέρας", "Лодочная пристань", "Łódź № 7", "ზღვა"])
def test_other_letters_are_read_again_as_they_were_written(name: str) -> None:
    assert _read_again(name) == name


def test_hebrew_is_put_from_right_to_left() -> None:
    """Letters in the order they are seen; a number keeps its own, brackets are mirrored.

    Source: Unicode Standard Annex 9, rules L2 and L4.
    """
    assert line_of("שלום 26").letters == "26 םולש"
    assert line_of("שלום (עולם)").letters == "(םלוע) םולש"
    assert line_of("Quilt שלום").letters == "Quilt םולש"


def test_brackets_stay_round_what_they_hold() -> None:
    """By rule N0 they run as what is inside, or as what stands before; by L4 they are mirrored.

    Source: Unicode Standard Annex 9; the lines worked by hand.
    """
    assert line_of("Quilt שלום (26)").letters == "Quilt (26) םולש"
    assert line_of("Quilt שלום (עולם)").letters == "Quilt (םלוע) םולש"
    assert line_of("שלום (abc) 5").letters == "5 (abc) םולש"
    assert line_of("Quilt (שלום 26)").letters == "Quilt (26 םולש)"


@pytest.mark.parametrize("brackets", ["()", "[]", "{}"])
def test_brackets_lie_where_another_implementation_lays_them(brackets: str) -> None:
    """The same algorithm by other hands, which turns no bracket's shape: compared blind."""
    blind = str.maketrans("()[]{}", "||||||")
    words = ("Quilt", "שלום", "26", "a-1", "ב, ג")
    for before, inside, after in product(words, repeat=3):
        text = f"{before} {brackets[0]}{inside}{brackets[1]} {after} é"
        base = "R" if get_base_level(text) % 2 else "L"
        seen = without_marks(get_display(with_marks(text, base=base)))
        assert seen.translate(blind) == other_display(text).translate(blind), text


def test_arabic_letters_are_joined() -> None:
    """Beh at a word's start, middle and end has its initial, medial and final form.

    Source: the Unicode Character Database, which calls the forms so.
    """
    seen = line_of("ببب").letters
    forms = [unicodedata.decomposition(letter).split()[0] for letter in reversed(seen)]
    assert forms == ["<initial>", "<medial>", "<final>"]


def test_a_sign_without_a_letter_is_told_by_its_name() -> None:
    assert line_of("Reel 🧵").letters == "Reel [spool of thread]"
    assert line_of("漢字").letters == "[U+6F22][U+5B57]"
    assert line_of("❤\ufe0f").letters == "[heavy black heart]"


def test_what_is_no_letter_leaves_no_trace() -> None:
    assert line_of("a\u200d\u0001Ω\ue000").letters == "aΩ"
    assert line_of("Ω\u3000Ω\nΩ").letters == "Ω Ω Ω"
    assert line_of("e\u0301").letters == "é"


@given(words=st.text(max_size=60))
def test_any_text_becomes_letters_that_its_font_has(words: str) -> None:
    line = line_of(words)
    if line.font == "Helvetica":
        assert is_standard(line.letters)
    else:
        assert {ord(letter) for letter in line.letters} <= HELD
    assert line.letters.isprintable()


@given(words=st.text(st.sampled_from("aΩש🧵 "), max_size=30))
def test_a_line_is_never_wider_than_its_room(words: str) -> None:
    cut = fitted(words, 4, 20)
    assert line_of(cut).width(4) <= 20
    assert cut.endswith("...") or cut == words
    assert cut != words or line_of(words).width(4) <= 20


def test_a_room_for_nothing_is_filled_with_dots() -> None:
    assert fitted("anything", 4, 1) == "..."
