"""Rules on how much is quilted: estimated and refused before it is laid.

A layout says how long its lines are (`Layout.density`); all else follows from that length.
"""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from stitchpath.geometry.points import path_length
from stitchpath.geometry.tolerance import NO_WIDTH_MM
from stitchpath.layouts import find_layout
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilting
from stitchpath.project.fault import Code, Fault, Path, key_path
from stitchpath.project.placed import box_of, laid_specs
from stitchpath.project.size_rules import count_many_meetings, count_motif_copies
from stitchpath.project.wording import rounded

MOST_STITCHES: Final = 10_000_000
"""Twenty-five times a king-size quilt in half-inch squares at 3 mm (about 400,000)."""

MOST_PLACES: Final = 4_000_000
"""By which lines are drawn and at which they cross; a king-size quilt in overlapping circles of
an inch has about 3,400,000. Each takes 10 to 16 microseconds of a processor until all is
planned (stipple, wineglass, pebbles, crosshatch, in 80 hoopings), so about a minute at most,
and some hundred bytes."""

_DRAWN: Final = 9.0
"""Points to a mm of a curve, times the root of its smallest repeat in mm. Chords that leave a
circle of radius r by `FLATNESS_MM` make 3.5 / sqrt(r) (geometry: chord = sqrt(8 r d)), the
sharpest bends have a radius of about a quarter of the repeat, and halving overshoots."""

_POINTS_PER_WAVE: Final = 8

_BESIDE: Final = 3
"""A segment's box meets itself and that of the next one, seen from both."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """What a layout comes to, about, and rather too much than too little.

    Attributes:
        stitches: Needle points.
        places: Points by which its lines are drawn, and places where they cross. Points of
            motifs have a limit of their own.
    """

    stitches: float
    places: float


def amount_is_finite(project: Project) -> Iterator[Fault]:
    """The quilting of both pieces together comes to less than the limits."""
    amounts = _amounts(project)
    faults = (
        _too_much(
            [(amount.stitches, path) for amount, path in amounts],
            most=MOST_STITCHES,
            code="too-many-stitches",
            of="needle points",
            help_="make the spacing or the stitch length larger, or the area smaller",
        ),
        _too_much(
            [(amount.places, path) for amount, path in amounts],
            most=MOST_PLACES,
            code="too-many-places",
            of="bends and crossings",
            help_="make the spacing larger, the area smaller, or a motif of fewer crossings",
        ),
    )
    yield from itertools.islice(filter(None, faults), 1)  # what mends one may mend the other


def amount_of(spec: Quilting, width: float, length: float) -> Amount:
    """Return what a layout comes to on a box, about.

    Args:
        spec: The layout; a motif has a drawing.
        width: Of the box, mm.
        length: Of the box, mm.
    """
    if spec.layout == "motif":
        return _of_motif(spec, count_motif_copies(spec, width, length))
    layout = find_layout(spec.layout)
    if "spacing" not in layout.keys:
        return Amount(stitches=0.0, places=0.0)
    if "amplitude" in layout.keys:  # rows begin that far outside, so that waves fill the edge
        width, length = (side + 2 * (spec.amplitude or 0.0) for side in (width, length))
    length, finest = max(length, spec.spacing), _finest_mm(spec)  # one row at the least
    rows, area = length / spec.spacing, width * length
    line = layout.density(spec) * width * rows
    if spec.count is not None and layout.repeat is None:  # of the whole, not of each repeat
        line = spec.count * math.hypot(width, length)
    waves = width * rows / finest if "period" in layout.keys else 0.0
    drawn = 0.0 if layout.is_straight else line * _DRAWN / math.sqrt(finest)
    # two sets of lines, each of half the length, cross once in each of their squares
    crossed = line**2 / (4 * area) if area else 0.0
    return Amount(
        stitches=max(line / spec.stitch_length, _POINTS_PER_WAVE * waves),
        places=drawn + crossed,
    )


def _finest_mm(spec: Quilting) -> float:
    """Return the smallest repeat that is asked for."""
    return min(spec.spacing, spec.period or spec.spacing)


def _of_motif(spec: Quilting, copies: float) -> Amount:
    if spec.svg is None:
        return Amount(stitches=0.0, places=0.0)
    strokes = spec.svg.strokes
    width = float(np.ptp(np.concatenate(strokes)[:, 0]))
    scale = 1.0 if spec.width is None else spec.width / max(width, NO_WIDTH_MM)
    length = scale * sum(map(path_length, strokes)) * copies
    meetings = count_many_meetings([*strokes], most=int(MOST_PLACES / copies))
    beside = _BESIDE * sum(map(len, strokes))
    return Amount(
        stitches=length / spec.stitch_length, places=max(meetings - beside, 0) * copies
    )


def _amounts(project: Project) -> list[tuple[Amount, Path]]:
    return [
        (amount_of(spec, *box_of(spec, piece)), (*path, _cause(spec)))
        for path, spec, piece in laid_specs(project)
    ]


def _too_much(
    counts: list[tuple[float, Path]], *, most: int, code: Code, of: str, help_: str
) -> Fault | None:
    total = sum(count for count, _ in counts)
    if total <= most:
        return None
    path = max(counts, key=lambda count: count[0])[1]
    return Fault(
        code=code,
        path=path,
        message=f"the quilting comes to about {rounded(total)} {of}",
        label=f"must come to at most {most:,}",
        notes=(f"most of them by `{key_path(path)}`",),
        help=help_,
    )


def _cause(spec: Quilting) -> str:
    return "repeat" if spec.layout == "motif" else "spacing"
