"""Letters in a PDF: any name is written in letters, none as `?`.

What western European languages need, the fonts hold that every reader has. Text with any other
letter is written in an open font that comes with the package pymupdf-fonts (FiraGO, SIL Open
Font License 1.1): Greek, Cyrillic, Hebrew, Arabic, Georgian, Thai and more. From right to left
it is put in the order in which it is seen, Arabic letters joined. Where that font has no letter
either, its Unicode name stands in brackets, or its number where the name says no more.
"""

import io
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, Final

import pymupdf_fonts
from reportlab.pdfbase.pdfmetrics import registerFont, stringWidth
from reportlab.pdfbase.ttfonts import TTFont

from stitchpath.preview.brackets import with_marks, without_marks

_STANDARD: Final = {False: "Helvetica", True: "Helvetica-Bold"}
_LETTERS: Final = "cp1252"  # what the standard fonts hold (WinAnsiEncoding)
_OPEN: Final = {False: "figo", True: "figbo"}
"""The open font by its names in pymupdf-fonts, plain and bold."""
_UNSEEN: Final = {"Cf", "Cc", "Cs", "Mn", "Me", "Co", "Cn"}
"""Categories of what is left out where there is no letter: joiners, marks, unassigned."""
_NUMBERED: Final = ("CJK ", "HANGUL ", "YI ", "TANGUT ", "NUSHU ", "EGYPTIAN ", "CUNEIFORM ")
"""Letters whose Unicode names are mostly numbers."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text as a PDF has it: a font, and letters in the order they are seen."""

    font: str
    letters: str

    def width(self, size: float) -> float:
        """Return how wide it is in the unit of its size."""
        return float(stringWidth(self.letters, self.font, size))


@lru_cache(maxsize=512)
def line_of(words: str, *, bold: bool = False) -> Line:
    """Return a line of text in letters that its font has."""
    text = unicodedata.normalize("NFC", words)
    if is_standard(text):
        return Line(_STANDARD[bold], text)
    font, held = _open_font(bold=bold)
    return Line(font, _as_seen("".join(_written(_joined(text), held))))


def fitted(words: str, size: float, width: float, *, bold: bool = False) -> str:
    """Return text, cut short with three dots where its line is wider than a width.

    Example:
        >>> fitted("Kiosk rug", 4, 100), fitted("Kiosk rug", 4, 12)
        ('Kiosk rug', 'Kios...')
    """
    cut, kept = words, words
    while kept and line_of(cut, bold=bold).width(size) > width:
        kept = kept[:-1]
        cut = f"{kept.rstrip()}..."
    return cut


def is_standard(text: str) -> bool:
    """Whether the fonts that every reader has hold all of a text."""
    try:
        text.encode(_LETTERS)
    except UnicodeEncodeError:
        return False
    return text.isprintable()


def _written(text: str, held: frozenset[str]) -> Iterator[str]:
    for letter in text:
        if letter in held and letter.isprintable():
            yield letter
        elif letter.isspace():
            yield " "
        elif unicodedata.category(letter) not in _UNSEEN:
            yield f"[{_name(letter)}]"


def _name(letter: str) -> str:
    name = unicodedata.name(letter, "")
    if not name or name.startswith(_NUMBERED):
        return f"U+{ord(letter):04X}"
    return name.lower()


@cache
def _open_font(*, bold: bool) -> tuple[str, frozenset[str]]:
    """Return the name of the open font for reportlab, and the letters that it has."""
    code = _OPEN[bold]
    font: Any = TTFont(f"stitchpath-{code}", io.BytesIO(pymupdf_fonts.myfont(code)))
    registerFont(font)
    return font.fontName, frozenset(map(chr, font.face.charToGlyph))


def _as_seen(text: str) -> str:
    """Return text in the order in which it is seen, brackets turned round with it."""
    from bidi.algorithm import (  # noqa: PLC0415 - few need it, and every start waits
        get_base_level,
        get_display,
    )

    base = "R" if get_base_level(text) % 2 else "L"
    return without_marks(get_display(with_marks(text, base=base)))


def _joined(text: str) -> str:
    """Return text with its Arabic letters joined; one by itself stays as the font has it."""
    if not any("\u0600" <= letter <= "\u06ff" for letter in text):
        return text
    from arabic_reshaper import ArabicReshaper  # noqa: PLC0415 - the same

    joiner = ArabicReshaper(configuration={"use_unshaped_instead_of_isolated": True})
    return str(joiner.reshape(text))
