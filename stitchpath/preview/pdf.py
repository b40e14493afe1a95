"""Pages of a PDF, drawn in mm from the top left corner of each, y down.

Any letter can be written: `letters` says how.
"""

import io
from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from typing import Any, Final, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray
from reportlab.pdfgen.canvas import Canvas

from stitchpath.geometry.points import Points
from stitchpath.preview.letters import line_of
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.svg import one_line
from stitchpath.units import MM_PER

Place: TypeAlias = tuple[float, float]
Anchor: TypeAlias = Literal["start", "middle", "end"]

POINTS_PER_MM: Final = 72 / MM_PER["in"]  # 72 points to the inch: ISO 32000, user space
_MOVE_TO: Final = "%.3f %.3f m"  # to a thousandth of a point: a third of a thousandth of a mm
_LINE_TO: Final = "%.3f %.3f l"
_Y_UP: Final = np.array([1.0, -1.0])
_RISE, _DROP = 0.78, 0.22
"""How far letters reach above and below their baseline, as shares of their size."""
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
        self._bytes, self._canvas = new_canvas(title, compressed=False)
        self._size: Place | None = None
        self._kept: dict[Hashable, str] = {}

    def begin(self, width: float, height: float) -> None:
        """Begin the next page, of a size in mm."""
        if self._size is not None:
            self._canvas.showPage()
        self._size = width, height
        self._canvas.setPageSize((width * POINTS_PER_MM, height * POINTS_PER_MM))

    def again(self, key: Hashable, draw: Callable[[], None]) -> None:
        """Draw what is the same on many pages of a size: it is worked out once.

        Args:
            key: Names it; what is drawn under one key is always the same.
            draw: Draws it on this page.
        """
        kept = self._kept.get((self._size, key))
        if kept is not None:
            self._canvas.addLiteral(kept)
            return
        before = len(self._canvas.getCurrentPageContent())
        draw()
        drawn: str = self._canvas.getCurrentPageContent()[before:]
        if drawn:
            self._kept[self._size, key] = drawn.removeprefix("\n")

    def lines(self, parts: Iterable[Points], ink: Ink, *, shift: Place = (0.0, 0.0)) -> None:
        """Draw polylines, moved by a shift, in one stroke."""
        lines = parts if isinstance(parts, Polylines) else Polylines.of(parts)
        if not len(lines):
            return
        self.again(ink, lambda: self._take(ink))
        self._canvas.drawPath(_Path(self._all_at(lines.points + shift), lines.starts))

    def triangle(self, corners: Points) -> None:
        """Fill a triangle."""
        self._fill(corners, grey=0)

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
        line = line_of(words, bold=bold)
        share = _SHARE[anchor]
        x = at[0] - share * line.width(size) if share else at[0]
        self._canvas.setFillGray(grey)
        self._canvas.setFont(line.font, size * POINTS_PER_MM)
        left, base = float(x) * POINTS_PER_MM, (self._height - float(at[1])) * POINTS_PER_MM
        self._canvas.drawString(left, base, line.letters)

    def text_apart(
        self,
        at: Place,
        words: str,
        size: float,
        *,
        anchor: Anchor = "start",
        bold: bool = False,
        grey: float = 0.0,
    ) -> None:
        """Write text that may lie on lines: a white chip under it keeps it apart."""
        width = line_of(words, bold=bold).width(size)
        x0, y0 = at[0] - _SHARE[anchor] * width, at[1] - _RISE * size
        x1, y1 = x0 + width, at[1] + _DROP * size
        self._fill(np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]]), grey=1)
        self.text(at, words, size, anchor=anchor, bold=bold, grey=grey)

    def finished(self) -> bytes:
        """Return the document; nothing is drawn afterwards."""
        self._canvas.save()
        return self._bytes.getvalue()

    def _fill(self, corners: Points, *, grey: float) -> None:
        self._canvas.setFillGray(grey)
        start = np.zeros(1, dtype=np.intp)
        self._canvas.drawPath(_Path(self._all_at(corners), start), stroke=0, fill=1)

    def _all_at(self, places: Points) -> Points:
        """Return places of the page as the document counts them, from the bottom left."""
        return np.asarray((places * _Y_UP + (0.0, self._height)) * POINTS_PER_MM)

    @property
    def _height(self) -> float:
        """The page's, mm."""
        if self._size is None:
            raise ValueError("a page is begun before something is drawn on it")
        return self._size[1]

    def _take(self, ink: Ink) -> None:
        self._canvas.setLineWidth(ink.width * POINTS_PER_MM)
        self._canvas.setStrokeGray(ink.grey)
        self._canvas.setDash([dash * POINTS_PER_MM for dash in ink.dash])


class _Path:
    """A path as the canvas takes one, its operators written all at once.

    Source: ISO 32000-1, 8.5.2.1: `x y m` begins a subpath, `x y l` goes on with it.
    """

    def __init__(self, places: Points, starts: NDArray[np.intp]) -> None:
        """Take places of the page in points, and the rows at which subpaths begin."""
        operators = [_LINE_TO] * len(places)
        for start in starts.tolist():
            operators[start] = _MOVE_TO
        self._code = " ".join(operators) % tuple(places.ravel().tolist())

    def getCode(self) -> str:  # noqa: N802 - the canvas asks for it by this name
        """Return the operators."""
        return self._code


def new_canvas(title: str, *, compressed: bool) -> tuple[io.BytesIO, Any]:
    """Return where a document is written, and a canvas that writes it there.

    The same calls give the same bytes. Uncompressed is faster, and not in the hands of a
    compressor's version.
    """
    stream = io.BytesIO()
    canvas: Any = Canvas(stream, invariant=1, pageCompression=int(compressed))
    canvas.setTitle(one_line(title))
    canvas.setCreator("stitchpath")
    return stream, canvas


def text_width(words: str, size: float, *, bold: bool = False) -> float:
    """Return how wide a line of text of a height in mm is, mm."""
    return line_of(words, bold=bold).width(size)
