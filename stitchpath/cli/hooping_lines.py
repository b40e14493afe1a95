"""One hooping of the order of sewing: a block of lines to work through at the machine."""

import re
from collections.abc import Iterator, Mapping, Sequence
from textwrap import fill
from typing import Final, TypeAlias

from stitchpath.cli.hours import hooping_handling
from stitchpath.cli.terminal import plain
from stitchpath.model.hooping import Hooping, Mark, Throat
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview.words import (
    basting_text,
    counted,
    duration,
    field_lies,
    later_threads_text,
    past_edges,
)
from stitchpath.units import Unit, format_field, format_length

WIDTH: Final = 97
"""Of a line. With the indent of a stage that is 100, which prints on a page."""
_LABEL: Final = 14
_PLACED_BY: Final = 2

_TIED: Final = "\N{NO-BREAK SPACE}"
_MEASURE: Final = re.compile(r"(?<=\d) (?=\d+/|mm\b|cm\b|in\b|h\b|min\b)")
"""The spaces within a length or a time."""

_Line: TypeAlias = tuple[str, str]
"""What a line is about, and what it says."""


def hooping_lines(
    plan: Plan, stage: Stage, sewn: SewnHooping, files: Mapping[str, str], *, turned: str
) -> str:
    """Return what to do for one hooping, in the order of doing it.

    Args:
        plan: What is sewn.
        stage: Which stage.
        sewn: The hooping.
        files: Its stitch files, by format.
        turned: By how much the piece is turned since the hooping before; empty for not.
    """
    hooping = sewn.hooping
    heading = f"hooping {hooping.number}: {_file_names(list(files.values()))}"
    return "\n".join([heading, *map(_shown, _lines(plan, stage, sewn, turned))])


def _lines(plan: Plan, stage: Stage, sewn: SewnHooping, turned: str) -> Iterator[_Line]:
    hooping, unit, piece = sewn.hooping, plan.project.units, stage.piece.name
    if turned:
        yield "turn first", f"the {piece}, by {turned}"
    if hooping.throat is not None:
        yield "to the right", _in_throat(hooping.throat, unit)
    yield "field", _field(hooping, piece, unit)
    if past := past_edges(hooping.overhang, unit):
        held = hooping.overhang.most <= plan.project.margin_of(piece)
        holds = "; backing and batting hold it" * held
        yield "ring" if held else "float", f"the hoop's ring reaches {past}{holds}"
    for place, mark in enumerate(hooping.marks):
        kind = "mark" if place < _PLACED_BY else "check by"
        if mark.name in sewn.basting.marks:
            kind = "new mark"
        yield f"{kind} {mark.name}", _mark(mark, unit)
    if sewn.refit is not None:
        again = f"into {plain(sewn.refit.file)}, which is sewn instead"
        yield "refitted", f"{again}; its marks lie where its stitches say"
    yield from _stops(stage, sewn)
    sewing = sewn.figures.seconds
    whole = sewing + hooping_handling(plan, stage.name, hooping.number)
    stitches = counted(sewn.figures.stitches, "stitch")
    yield "sew", f"{stitches}, {duration(sewing)}; {duration(whole)} in all"


def _stops(stage: Stage, sewn: SewnHooping) -> Iterator[_Line]:
    """Say what the machine stops for."""
    if told := basting_text(sewn.basting):
        yield "baste", f"{told}; the machine pauses after it"
    if told := later_threads_text(stage, sewn):
        yield "threads", told


def _shown(line: _Line) -> str:
    about, told = line
    label = f"  {about}".ljust(_LABEL)
    text = fill(
        f"{label} {_MEASURE.sub(_TIED, told)}",
        width=WIDTH,
        subsequent_indent=" " * (_LABEL + 1),
        break_on_hyphens=False,
        break_long_words=False,
    )
    return text.replace(_TIED, " ")


def _file_names(paths: Sequence[str]) -> str:
    """Return a file's name, and how the same in other formats ends."""
    return ", ".join([paths[0], *(f".{path.rpartition('.')[2]}" for path in paths[1:])])


def _field(hooping: Hooping, piece: str, unit: Unit) -> str:
    left, top = (format_length(distance, unit) for distance in hooping.centre)
    return (
        f"{format_field(hooping.field, unit)}, {field_lies(hooping)}; its middle {left} from "
        f"the left and {top} from the top edge of the {piece}"
    )


def _in_throat(throat: Throat, unit: Unit) -> str:
    """Return the edge that lies in the throat, and the roll that it makes there."""
    if throat.roll == 0:
        large = "" if throat.fits else "; the hoop is too large for the throat"
        return f"the {throat.side} edge, flat{large}"
    lies = f"the {throat.side} edge, in a roll of {format_length(throat.roll, unit)}"
    return lies + (", which fits the throat" if throat.fits else ": too large for the throat")


def _mark(mark: Mark, unit: Unit) -> str:
    left, top = (format_length(distance, unit) for distance in mark.piece)
    x, y = (f"{round(at, 1) + 0.0:.1f}" for at in mark.field)
    return f"needle at {x}, {y} mm; lies {left} from the left, {top} from the top"
