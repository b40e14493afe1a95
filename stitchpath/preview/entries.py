"""Which legend entries a picture needs: those of the marks that are in it."""

from typing import Final

from stitchpath.preview import legend, strokes
from stitchpath.preview.legend import Entry, line_sample, point_sample
from stitchpath.preview.look import Look
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.ramp import order_steps
from stitchpath.preview.sewing_layers import arrows
from stitchpath.preview.svg import Layer
from stitchpath.preview.trace import Trace

OUTLINE: Final = Entry(
    text="finished edge of the piece", sample=line_sample(strokes.draw_outline)
)
SHADOW: Final = Entry(text="edge of the pocket", sample=line_sample(strokes.draw_shadow))
DESIGN: Final = Entry(text="designed line", sample=line_sample(strokes.draw_design))
CROSS: Final = Entry(
    text="placement mark with its letter", sample=point_sample(strokes.draw_crosses)
)


def field_entry(text: str) -> Entry:
    """Return the entry of a field."""
    return Entry(text=text, sample=legend.sample_field)


def centre_entry() -> Entry:
    """Return the entry of the field's middle."""

    def draw(layer: Layer, x: float, y: float, look: Look) -> None:
        strokes.draw_centre(layer, (x, y), look)

    return Entry(text="centre of the field", sample=draw)


def sewing_entries(sewn: Trace, look: Look, *, with_points: bool) -> list[Entry]:
    """Return the entries of what is sewn, without marks that do not occur."""
    steps = len(set(order_steps(len(sewn.numbers)).tolist()))
    points = "" if with_points else "; needle points are in the hoopings' pictures"
    every = [
        (steps, f"sewn thread{points}", legend.sample_thread),
        (with_points and steps, "needle points", legend.sample_needle_points),
        (steps > 1, "order of runs, first to last", legend.sample_order(max(steps, 1))),
        (steps, "start of a run, with its number where there is room", _start),
        (steps, "end of a run", point_sample(strokes.draw_ends)),
        (len(sewn.cuts), "thread cut", legend.sample_cut),
        (len(sewn.pauses), "pause for the maker", legend.sample_pause),
        (len(arrows(sewn, look)[0]), "direction of sewing", legend.sample_arrow),
        (len(sewn.travels), "move without sewing, thread cut", _line(strokes.draw_travels)),
        (len(sewn.hops), "move without sewing, thread uncut", _line(strokes.draw_hops)),
    ]
    return [Entry(text=text, sample=sample) for wanted, text, sample in every if wanted]


_start = point_sample(strokes.draw_starts)
_line = line_sample


def piece_entries(outline: Polylines, shadow: Polylines, design: Polylines) -> list[Entry]:
    """Return the entries of what is drawn of the piece."""
    every = [(outline, OUTLINE), (shadow, SHADOW), (design, DESIGN)]
    return [entry for drawn, entry in every if len(drawn)]
