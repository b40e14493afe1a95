"""Which legend entries a picture needs: those of the marks that are in it."""

from typing import Final

from stitchpath.model.plan import Stage
from stitchpath.preview import legend, strokes
from stitchpath.preview.legend import Entry, line_sample, point_sample
from stitchpath.preview.piece_layers import Ground
from stitchpath.preview.sewing_layers import Sewing
from stitchpath.preview.words import later_thread_text

CROSS: Final = Entry(
    text="placement mark with its letter", sample=point_sample(strokes.draw_crosses)
)
FIELD: Final = Entry(
    text="field: the needle's reach, head to its top", sample=legend.sample_field
)
FIELDS: Final = Entry(
    text="field with hooping number, head to its top", sample=legend.sample_field
)
FINDING: Final = Entry(
    text="a check warns of this place; number as in the booklet",
    sample=legend.sample_finding,
)
RING: Final = Entry(text="the hoop's ring", sample=legend.sample_ring)
JOIN: Final = Entry(text="lines of two hoopings meet", sample=point_sample(strokes.draw_joins))
JOIN_NUMBERED: Final = Entry(
    text="join with another hooping; its number where there is room",
    sample=point_sample(strokes.draw_joins),
)
CENTRE: Final = Entry(text="centre of the field", sample=point_sample(strokes.draw_centre))

_OUTLINE: Final = Entry(
    text="finished edge of the piece", sample=line_sample(strokes.draw_outline)
)
_SHADOW: Final = Entry(text="edge of the pocket", sample=line_sample(strokes.draw_shadow))
_DESIGN: Final = Entry(text="designed line", sample=line_sample(strokes.draw_design))
_THREAD: Final = Entry(text="sewn thread", sample=legend.sample_thread)
_THREAD_ALONE: Final = Entry(
    text="sewn thread; needle points are in the hoopings' pictures", sample=legend.sample_thread
)
_POINTS: Final = Entry(text="needle points", sample=legend.sample_needle_points)
_START: Final = Entry(
    text="start of a run, with its number where there is room",
    sample=point_sample(strokes.draw_starts),
)
_START_FEW: Final = Entry(
    text="start of a run; a hooping's first and last have numbers where there is room",
    sample=point_sample(strokes.draw_starts),
)
_END: Final = Entry(text="end of a run", sample=point_sample(strokes.draw_ends))
_CUT: Final = Entry(text="thread cut", sample=legend.sample_cut)
_PAUSE: Final = Entry(text="pause for the maker", sample=legend.sample_pause)
_ARROW: Final = Entry(text="direction of sewing", sample=legend.sample_arrow)
_BASTING: Final = Entry(
    text="basting, taken out when the quilt is done", sample=line_sample(strokes.draw_basting)
)
_AGAIN: Final = Entry(text="sewn twice, to go on without a cut", sample=legend.sample_again)
_TRAVEL: Final = Entry(
    text="move without sewing, thread cut", sample=line_sample(strokes.draw_travels)
)
_HOP: Final = Entry(
    text="move without sewing, thread uncut", sample=line_sample(strokes.draw_hops)
)


def ground_entries(ground: Ground) -> list[Entry]:
    """Return the entries of what is seen of the piece."""
    every = ((ground.outline, _OUTLINE), (ground.shadow, _SHADOW), (ground.design, _DESIGN))
    return [entry for seen, entry in every if len(seen)]


def sewing_entries(sewing: Sewing, *, numbers_all: bool = True) -> list[Entry]:
    """Return the entries of what is sewn, without marks that do not occur.

    Args:
        sewing: What is sewn.
        numbers_all: Whether every run may have a number, not only a hooping's first and last.
    """
    trace, runs = sewing.trace, len(sewing.bands)
    order = Entry(text="order of runs, first to last", sample=legend.sample_order(runs))
    every = (
        (runs, _THREAD if sewing.with_points else _THREAD_ALONE),
        (runs and sewing.with_points, _POINTS),
        (runs > 1, order),
        (runs, _START if numbers_all else _START_FEW),
        (runs, _END),
        (len(trace.cuts), _CUT),
        (len(trace.pauses), _PAUSE),
        (len(sewing.arrows[0]), _ARROW),
        (len(sewing.again), _AGAIN),
        (len(sewing.basting), _BASTING),
        (len(trace.travels), _TRAVEL),
        (len(trace.hops), _HOP),
    )
    return [entry for occurs, entry in every if occurs]


def thread_entries(sewing: Sewing, stage: Stage) -> list[Entry]:
    """Return an entry for each thread but the stage's that is seen: its colour and its file."""
    return [
        Entry(
            text=later_thread_text(stage, number),
            sample=legend.sample_thread_of(colour),
        )
        for number, colour in sewing.threads.items()
        if number
    ]
