"""How much thread of each colour to buy.

Formula. Thread of a colour = (its top thread + its bobbin thread) x (1 + waste); spools are
that over the length on one, rounded up; grams are km x tex. How much a stitch takes is said in
figures.

Source: 10 to 20 % of waste is usual (docs/sources.md, thread). Limits: the same thread is taken
to be on top and in the bobbin where both have one colour.
"""

from collections.abc import Sequence
from math import ceil

from stitchpath.model.estimate import ThreadToBuy
from stitchpath.model.plan import Stage
from stitchpath.model.supplies import Supplies

_METRE_MM = 1000.0


def buy_thread(stages: Sequence[Stage], supplies: Supplies) -> tuple[ThreadToBuy, ...]:
    """Return the thread of each colour, in the order in which colours are first sewn."""
    colours = dict.fromkeys(
        colour for stage in stages for colour in (stage.thread.top, stage.thread.bobbin)
    )
    return tuple(_buy(colour, stages, supplies) for colour in colours)


def _buy(colour: str, stages: Sequence[Stage], supplies: Supplies) -> ThreadToBuy:
    top = sum(one.figures.top_thread_mm for one in stages if one.thread.top == colour)
    bobbin = sum(one.figures.bobbin_thread_mm for one in stages if one.thread.bobbin == colour)
    buy = (top + bobbin) * (1 + supplies.thread_waste)
    return ThreadToBuy(
        colour=colour,
        top_mm=top,
        bobbin_mm=bobbin,
        buy_mm=buy,
        spools=ceil(buy / (supplies.spool_metres * _METRE_MM)),
        grams=buy / _METRE_MM / 1000 * supplies.thread_tex,
    )
