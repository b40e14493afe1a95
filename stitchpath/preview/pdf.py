"""Pages of a PDF, drawn in mm from the top left corner of each, y down.

Only the fonts that every reader has are used, so a letter they lack is shown as its nearest
plain one, or as `?`.
"""

import io
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from stitchpath.geometry.points import Points
from stitchpath.preview.polylines import Polylines
from stitchpath.units import MM_PER

Place: TypeAlias = tuple[float, float]
Anchor: TypeAlias = Literal["start", "middle", "end"]

_POINTS_PER_MM: Final = 72 / MM_PER["in"]  # 72 points to the inch: ISO 32000, user space
_REGULAR: Final = "Helvetica"
_BOLD: Final = "Helvetica-Bold"
_LETTERS: Final = "cp1252"  # what the standard fonts hold (WinAnsiEncoding)
_MOVE_TO: Final = "%.3f %.3f m"  # to a thousandth of a point: a third of a thousandth of a mm
_LINE_TO: Final = "%.3f %.3f l"
_SHARE: dict[Anchor, float] = {"start": 0.0, "middle": 0.5, "end": 1.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """How a line is drawn: its width and dashes in mm, and its grey, 0 for black."""

    width: float = 0.25
    grey: float = 0.0
    dash: tuple[float, ...] = ()


class Pages:
    """A PDF that is drawn page after page; the same calls give the same bytes."""

    def __init__(self, title: str) -> None:
        """Begin a document without pages."""
        self._bytes = io.BytesIO()
        # uncompressed: faster, and not in the hands of a compressor's version
        self._canvas: Any = Canvas(self._bytes, invariant=1, pageCompression=0)
        self._canvas.setTitle(printable(title))
        self._height: float | None = None

    def begin(self, width: float, height: float) -> None:
        """Begin the next page, of a size in mm."""
        if self._height is not None:
            self._canvas.showPage()
        self._height = height
        self._canvas.setPageSize((width * _POINTS_PER_MM, height * _POINTS_PER_MM))

    def lines(self, parts: Iterable[Points], ink: Ink, *, shift: Place = (0.0, 0.0)) -> None:
        """Draw polylines, moved by a shift, in one stroke."""
        lines = parts if isinstance(parts, Polylines) else Polylines.of(parts)
        if not len(lines):
            return
        self._canvas.setLineWidth(ink.width * _POINTS_PER_MM)
        self._canvas.setStrokeGray(ink.grey)
        self._canvas.setDash([dash * _POINTS_PER_MM for dash in ink.dash])
        self._canvas.drawPath(_Path(self._all_at(lines.points + shift), lines.starts))

    def triangle(self, corners: Points) -> None:
        """Fill a triangle."""
        self._canvas.setFillGray(0)
        start = np.zeros(1, dtype=np.intp)
        self._canvas.drawPath(_Path(self._all_at(corners), start), stroke=0, fill=1)

    def text(
        self,
        at: Place,
        words: str,
        size: float,
        *,
        anchor: Anchor = "start",
        bold: bool = False,
        grey: float = 0.0,
    ) -> None:
        """Write one line of text, its baseline at a place; `size` is its height in mm."""
        shown = printable(words)
        x = at[0] - _SHARE[anchor] * text_width(shown, size, bold=bold)
        self._canvas.setFillGray(grey)
        self._canvas.setFont(_BOLD if bold else _REGULAR, size * _POINTS_PER_MM)
        ((left, base),) = self._all_at(np.array([[x, at[1]]])).tolist()
        self._canvas.drawString(left, base, shown)

    def finished(self) -> bytes:
        """Return the document; nothing is drawn afterwards."""
        self._canvas.save()
        return self._bytes.getvalue()

    def _all_at(self, places: Points) -> Points:
        """Return places of the page as the document counts them, from the bottom left."""
        if self._height is None:
            raise ValueError("a page is begun before something is drawn on it")
        return np.asarray((places * (1, -1) + (0, self._height)) * _POINTS_PER_MM)


class _Path:
    """A path as the canvas takes one, its operators written all at once.

    Source: ISO 32000-1, 8.5.2.1: `x y m` begins a subpath, `x y l` goes on with it.
    """

    def __init__(self, places: Points, starts: NDArray[np.intp]) -> None:
        """Take places of the page in points, and the rows at which subpaths begin."""
        operators = np.full(len(places), _LINE_TO)
        operators[starts] = _MOVE_TO
        self._code = " ".join(operators.tolist()) % tuple(places.ravel().tolist())

    def getCode(self) -> str:  # noqa: N802 - the canvas asks for it by this name
        """Return the operators."""
        return self._code


@lru_cache(maxsize=4096)
def text_width(words: str, size: float, *, bold: bool = False) -> float:
    """Return how wide a line of text of a height in mm is, mm."""
    return float(stringWidth(printable(words), _BOLD if bold else _REGULAR, size))


def fitted(words: str, size: float, width: float, *, bold: bool = False) -> str:
    """Return text, cut short with three dots where it is wider than a width in mm.

    Example:
        >>> fitted("Kiosk rug", 4, 100), fitted("Kiosk rug", 4, 12)
        ('Kiosk rug', 'Kios...')
    """
    if text_width(words, size, bold=bold) <= width:
        return words
    kept = words
    while kept and text_width(f"{kept}...", size, bold=bold) > width:
        kept = kept[:-1]
    return f"{kept.rstrip()}..."


@cache
def printable(words: str) -> str:
    r"""Return text in letters that the standard fonts have.

    Example:
        >>> printable("Crème, “gull” № 7 \N{SPOOL OF THREAD}"), printable("Łódź")
        ('Crème, “gull” No 7 ?', '?ódz')
    """
    if _is_held(words):
        return words
    return "".join(_letter(letter) for letter in words)


def _letter(letter: str) -> str:
    if _is_held(letter):
        return letter
    plain = unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").decode("ascii")
    return (
        plain if plain.isprintable() and plain else "" if unicodedata.combining(letter) else "?"
    )


def _is_held(words: str) -> bool:
    try:
        words.encode(_LETTERS)
    except UnicodeEncodeError:
        return False
    return words.isprintable()
