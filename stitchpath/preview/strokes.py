"""One function for each mark: drawing and legend both call it, so they cannot differ."""

import numpy as np
from numpy.typing import ArrayLike

from stitchpath.geometry.points import Points
from stitchpath.preview import marks
from stitchpath.preview.colours import CLOTH, DESIGN, HOOP, INK, PAGE, RING, SOFT_INK
from stitchpath.preview.look import Look
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.svg import STITCH_GRID, Layer, Pen, add_dots, add_lines


def draw_cloth(layer: Layer, areas: Polylines) -> None:
    """Draw the piece as a plain area."""
    add_lines(layer, areas, Pen(fill=CLOTH), closed=True)


def draw_outline(layer: Layer, lines: Polylines, look: Look) -> None:
    """Draw the finished edge of the piece."""
    add_lines(layer, lines, Pen(stroke=INK, width=look.sign * 0.14))


def draw_shadow(layer: Layer, lines: Polylines, look: Look) -> None:
    """Draw the edge of what is sewn onto the piece."""
    dash = (look.sign * 0.9, look.sign * 0.5)
    add_lines(layer, lines, Pen(stroke=INK, width=look.sign * 0.1, dash=dash, cap="butt"))


def draw_design(layer: Layer, lines: Polylines, look: Look) -> None:
    """Draw designed lines, faint."""
    add_lines(layer, lines, Pen(stroke=DESIGN, width=look.hair, cap="butt"))


def draw_fields(layer: Layer, corners: Polylines, look: Look, *, weight: float) -> None:
    """Draw fields as rectangles; `weight` is a share of a sign's size."""
    add_lines(layer, corners, Pen(stroke=HOOP, width=look.sign * weight), closed=True)


def draw_ring(layer: Layer, edges: Polylines, look: Look) -> None:
    """Draw a hoop's ring between its outer and inner edge."""
    pen = Pen(stroke=HOOP, width=look.sign * 0.05, fill=RING)
    add_lines(layer, edges, pen, closed=True)


def draw_joins(layer: Layer, places: ArrayLike, look: Look, *, overlap_mm: float = 0.0) -> None:
    """Draw diamonds round places where two hoopings meet on a line, and round both ends."""
    size = max(1.7 * look.mark, overlap_mm + 1.1 * look.mark)
    diamonds = marks.stamped(marks.DIAMOND, places, size)
    rim = Pen(stroke=CLOTH, width=look.mark * 0.26)
    add_lines(layer, diamonds, rim, Pen(stroke=HOOP, width=look.mark * 0.1), closed=True)


def draw_tops(layer: Layer, places: ArrayLike, look: Look, *, right: ArrayLike) -> None:
    """Draw heads that point to the tops of fields; `right` are the fields' own x axes."""
    heads = marks.stamped(marks.POINTER, places, look.sign, along=right)
    add_lines(layer, heads, Pen(fill=HOOP), closed=True)


def draw_centre(layer: Layer, at: Points, look: Look) -> None:
    """Draw the middle of the field."""
    for shape in (marks.UPRIGHT, marks.LEVEL):
        lines = marks.stamped(shape, at, look.sign * 1.6)
        add_lines(layer, lines, Pen(stroke=HOOP, width=look.sign * 0.06))


def draw_order(layer: Layer, lines: Polylines, colour: str, look: Look) -> None:
    """Draw a band in a colour of order."""
    add_lines(layer, lines, Pen(stroke=colour, width=look.band), per_mm=STITCH_GRID)


def draw_again(layer: Layer, lines: Polylines, look: Look) -> None:
    """Draw ticks across a line that is sewn a second time, to go on without a cut."""
    dash = (look.mark * 0.1, look.mark * 0.3)
    pen = Pen(stroke=INK, width=1.5 * look.band, dash=dash, cap="butt")
    add_lines(layer, lines, pen, per_mm=STITCH_GRID)


def draw_lay(layer: Layer, lines: Polylines, look: Look) -> None:
    """Draw what the thread lies on, so that it stands out from the band."""
    add_lines(layer, lines, Pen(stroke=look.lay_colour, width=look.lay), per_mm=STITCH_GRID)


def draw_thread(layer: Layer, strands: Polylines, look: Look) -> None:
    """Draw the thread from needle point to needle point."""
    pen = Pen(stroke=look.thread_colour, width=look.thread)
    add_lines(layer, strands, pen, per_mm=STITCH_GRID)


def draw_needle_points(layer: Layer, points: Points, look: Look) -> None:
    """Draw needle points as dots."""
    add_dots(layer, points, Pen(stroke=look.dot_colour, width=look.dot), per_mm=STITCH_GRID)


def draw_basting(layer: Layer, lines: Polylines, look: Look) -> None:
    """Draw basting in long dashes with wide gaps, as it is sewn by hand."""
    dash = (look.mark * 0.5, look.mark * 0.5)
    pen = Pen(stroke=INK, width=look.mark * 0.12, dash=dash, cap="butt")
    add_lines(layer, lines, pen)


def draw_travels(layer: Layer, lines: Polylines, look: Look) -> None:
    """Draw moves after a thread cut."""
    dash = (look.mark * 0.5, look.mark * 0.35)
    pen = Pen(stroke=SOFT_INK, width=look.hair, dash=dash, cap="butt")
    add_lines(layer, lines, pen)


def draw_hops(layer: Layer, lines: Polylines, look: Look) -> None:
    """Draw moves with the thread uncut: dotted, because the thread really lies there."""
    dash = (0.0, look.mark * 0.24)
    add_lines(layer, lines, Pen(stroke=INK, width=look.mark * 0.11, dash=dash))


def draw_arrows(layer: Layer, places: Points, directions: Points, look: Look) -> None:
    """Draw heads that show the way a line is sewn."""
    heads = marks.stamped(marks.ARROW, places, look.mark * 0.95, along=directions)
    edge = look.mark * 0.12
    rim = Pen(stroke=CLOTH, width=2 * edge, fill=INK)
    add_lines(layer, heads, rim, Pen(fill=INK), closed=True)


def draw_ends(layer: Layer, places: Points, look: Look) -> None:
    """Draw open squares where runs end."""
    squares = marks.stamped(marks.SQUARE, places, look.mark * 0.52)
    rim = Pen(stroke=CLOTH, width=look.mark * 0.3)
    pen = Pen(stroke=INK, width=look.mark * 0.12, fill=PAGE)
    add_lines(layer, squares, rim, pen, closed=True)


def draw_starts(layer: Layer, places: Points, look: Look) -> None:
    """Draw filled discs where runs start."""
    rim = Pen(stroke=CLOTH, width=look.mark * 0.8)
    add_dots(layer, places, rim, Pen(stroke=INK, width=look.mark * 0.6))


def draw_cuts(layer: Layer, places: Points, look: Look) -> None:
    """Draw a slash where the thread is cut."""
    slashes = marks.stamped(marks.SLASH, places, look.mark * 0.95)
    add_lines(layer, slashes, Pen(stroke=INK, width=look.mark * 0.13))


def draw_pauses(layer: Layer, places: Points, look: Look) -> None:
    """Draw two uprights above where the machine stops for the maker."""
    if not len(places):
        return
    for width, colour in ((0.36, CLOTH), (0.17, INK)):
        for side in (-0.17, 0.17):
            middles = pause_places(places, look) + np.array([side * look.mark, 0.0])
            bars = marks.stamped(marks.UPRIGHT, middles, look.mark * 0.6)
            add_lines(layer, bars, Pen(stroke=colour, width=look.mark * width, cap="butt"))


def pause_places(places: Points, look: Look) -> Points:
    """Return where pauses are drawn: above the needle point, clear of a start's disc."""
    above: Points = places - np.array([0.0, 0.85 * look.mark])
    return above


def draw_crosses(layer: Layer, places: ArrayLike, look: Look) -> None:
    """Draw placement marks."""
    _draw_bars(layer, places, look, Pen(stroke=PAGE, width=look.sign * 0.34, cap="butt"))
    draw_cross_bars(layer, places, look)


def draw_cross_bars(layer: Layer, places: ArrayLike, look: Look) -> None:
    """Draw placement marks without their rims, over what would hide them."""
    _draw_bars(layer, places, look, Pen(stroke=HOOP, width=look.sign * 0.14, cap="butt"))


def _draw_bars(layer: Layer, places: ArrayLike, look: Look, pen: Pen) -> None:
    for shape in (marks.UPRIGHT, marks.LEVEL):
        add_lines(layer, marks.stamped(shape, places, look.sign * 1.8), pen)


def draw_findings(layer: Layer, places: ArrayLike, look: Look) -> None:
    """Draw triangles round places that a check warns of."""
    triangles = marks.stamped(marks.TRIANGLE, places, look.sign * 1.7)
    rim = Pen(stroke=CLOTH, width=look.sign * 0.5)
    add_lines(layer, triangles, rim, Pen(stroke=INK, width=look.sign * 0.22), closed=True)


def draw_swatch(
    layer: Layer, ends: tuple[float, float], y: float, colour: str, look: Look
) -> None:
    """Draw a patch of a colour of order, half a text high."""
    high = 0.3 * look.text
    add_lines(
        layer, marks.box(ends[0], y - high, ends[1], y + high), Pen(fill=colour), closed=True
    )
