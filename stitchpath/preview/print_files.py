"""Pictures as PNG and PDF: other ways to write what the SVG says."""

from collections.abc import Sequence
from typing import Final

import resvg_py
from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from stitchpath.preview.letters import fitted, line_of
from stitchpath.preview.pdf import POINTS_PER_MM, new_canvas
from stitchpath.preview.svg_parts import Part, path_lines, svg_parts

PNG_LONGER_PX: Final = 2400
"""The longer side of a picture: sharp on a large screen and on a page."""
MOST_PDF_MM: Final = 5080.0
"""The longest side of a page. Source: ISO 32000-1:2008, annex C.2: 14,400 units of 1/72 in."""

_PIXELS_PER_IN: Final = 96.0
"""Source: CSS Values and Units Level 3 (W3C), 6.2: 1in is 96px."""
_PIXELS_PER_MM: Final = _PIXELS_PER_IN / 25.4
_CAPS: Final = {"butt": 0, "round": 1}
_ROUND_JOIN: Final = 1


def picture_png(svg: str) -> bytes:
    """Return one of our pictures as a PNG, `PNG_LONGER_PX` on its longer side.

    Its letters are those of the fonts that the computer has.
    """
    _, _, width, height = svg_parts(svg).box
    longer_px = max(width, height) * _PIXELS_PER_MM
    return resvg_py.svg_to_bytes(
        svg_string=svg, dpi=_PIXELS_PER_IN, zoom=PNG_LONGER_PX / longer_px
    )


def pictures_pdf(svgs: Sequence[str], *, title: str) -> bytes:
    """Return our pictures as the pages of a PDF, each at true scale and as large as it is.

    The same pictures give the same bytes.

    Args:
        svgs: The pictures, one or more.
        title: The document's name.

    Raises:
        ValueError: A picture is longer than `MOST_PDF_MM`.
    """
    stream, canvas = new_canvas(title, compressed=True)
    for svg in svgs:
        _draw_page(canvas, svg)
    canvas.save()
    return stream.getvalue()


def _draw_page(canvas: Canvas, svg: str) -> None:
    picture = svg_parts(svg)
    x, y, width, height = picture.box
    if max(width, height) > MOST_PDF_MM:
        raise ValueError(f"a page of a PDF is at most {MOST_PDF_MM:g} mm (200 in) long")
    canvas.setPageSize((width * POINTS_PER_MM, height * POINTS_PER_MM))
    canvas.scale(POINTS_PER_MM, POINTS_PER_MM)  # mm from here on
    canvas.translate(-x, y + height)  # y stays the picture's own, but is turned to point up
    canvas.setLineJoin(_ROUND_JOIN)
    for part in picture.parts:
        if part.element == "path":
            _draw_path(canvas, part)
        else:
            _draw_text(canvas, part, x + width)
    canvas.showPage()


def _draw_path(canvas: Canvas, part: Part) -> None:
    look, scale = part.look, part.scale
    path: PDFPathObject = canvas.beginPath()
    for line, closed in path_lines(look["d"]):
        (x, y), *rest = [
            (part.shift[0] + scale * x, -part.shift[1] - scale * y) for x, y in line
        ]
        path.moveTo(x, y)
        for place in rest:
            path.lineTo(*place)
        if closed:
            path.close()
    fill, stroke = look.get("fill", "none"), look.get("stroke", "none")
    if fill != "none":
        canvas.setFillColor(HexColor(fill))
    if stroke != "none":
        _set_pen(canvas, part)
    canvas.drawPath(path, stroke=int(stroke != "none"), fill=int(fill != "none"))


def _set_pen(canvas: Canvas, part: Part) -> None:
    look, scale = part.look, part.scale
    canvas.setStrokeColor(HexColor(look["stroke"]))
    canvas.setLineWidth(scale * float(look["stroke-width"]))
    canvas.setLineCap(_CAPS[look["stroke-linecap"]])
    dashes = look.get("stroke-dasharray", "").split(",")
    canvas.setDash([scale * float(length) for length in dashes if length])


def _draw_text(canvas: Canvas, part: Part, right: float) -> None:
    """Write a line of text; it is cut short where it would leave the page to the right."""
    look, scale = part.look, part.scale
    size = scale * float(look["font-size"])
    x = part.shift[0] + scale * float(look["x"])
    y = -part.shift[1] - scale * float(look["y"])
    bold = look.get("font-weight") == "bold"
    line = line_of(fitted(part.text, size, right - x, bold=bold), bold=bold)
    canvas.setFont(line.font, size)
    canvas.setFillColor(HexColor(look["fill"]))
    if look.get("text-anchor") == "middle":
        x -= line.width(size) / 2
    canvas.drawString(x, y, line.letters)
