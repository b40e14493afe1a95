"""Facts about a stage or a hooping as a maker reads them."""

from dataclasses import asdict
from typing import Final

import webcolors

from stitchpath.geometry.tolerance import GRID_MM, SAME_POINT_MM
from stitchpath.model.estimate import Bobbins
from stitchpath.model.hooping import Hooping, Overhang
from stitchpath.model.piece import Piece
from stitchpath.model.plan import Basting, Figures, SewnHooping, Stage
from stitchpath.units import Unit, format_field, format_length, number_of

MARK_HEADS: Final = (
    "mark", "from left", "right", "top", "bottom", "from the middle", "hoopings"
)  # fmt: skip
"""Of a table of marks: a name, what `mark_measures` tells, and the hoopings' numbers."""
_BASTED: Final = ("crosses at marks and boxes are basting, taken out when the quilt is done",)
_MINUTE: Final = 60
_LIES: Final = {
    0.0: "upright",
    90.0: "with its top to the right",
    180.0: "upside down",
    270.0: "with its top to the left",
}


def counted(count: int, thing: str) -> str:
    """Return a number and its noun.

    Example:
        >>> counted(1, "pause"), counted(1200, "stitch"), counted(0, "pause")
        ('1 pause', '1,200 stitches', '0 pauses')
    """
    ending = "es" if thing.endswith("ch") else "s"
    return number_of(count, thing, f"{thing}{ending}")


def duration(seconds: float) -> str:
    """Return a time to the minute, short ones to the second.

    Example:
        >>> duration(42.4), duration(59.7), duration(95), duration(7260)
        ('42 s', '1 min', '2 min', '2 h 1 min')
    """
    if round(seconds) < _MINUTE:
        return f"{round(seconds)} s"
    hours, minutes = divmod(round(seconds / _MINUTE), _MINUTE)
    return f"{hours} h {minutes} min" if hours else f"{minutes} min"


def metres(length_mm: float) -> str:
    """Return a length of thread; in metres in any project, as spools are labelled.

    Example:
        >>> metres(81_840), metres(1_234_560)
        ('81.8 m', '1,234.6 m')
    """
    return f"{length_mm / 1000:,.1f} m"


def thread_name(colour: str) -> str:
    """Return a thread's colour by its name in CSS where it has one, else its code.

    Example:
        >>> thread_name("#6a5acd"), thread_name("#6a5ace")
        ('slateblue', '#6a5ace')
    """
    try:
        return str(webcolors.hex_to_name(colour))
    except ValueError:
        return colour


def size(width_mm: float, length_mm: float, unit: Unit) -> str:
    """Return width by length.

    Example:
        >>> size(1117.6, 1473.2, "in")
        '44 in x 58 in'
    """
    return f"{format_length(width_mm, unit)} x {format_length(length_mm, unit)}"


def figures_text(figures: Figures) -> str:
    """Return what something comes to."""
    parts = [
        counted(figures.stitches, "stitch"),
        counted(figures.runs, "run"),
        cuts_text(figures),
        counted(figures.pauses, "pause"),
        f"{duration(figures.seconds)} of sewing",
    ]
    return ", ".join(parts)


def sold_size(width_mm: float, length_mm: float, unit: Unit) -> str:
    """Return width and length of what is bought; nobody sells tenths of a mm.

    Example:
        >>> sold_size(863.6, 1143, "mm"), sold_size(863.6, 1143, "in")
        ('864 mm x 1143 mm', '34 in x 45 in')
    """
    if unit == "in":
        return size(width_mm, length_mm, unit)
    return size(round(width_mm), round(length_mm), unit)


def cuts_text(figures: Figures) -> str:
    """Return how many threads are cut between runs, and by whom where the machine does not."""
    if figures.snips:
        return f"{counted(figures.snips, 'thread')} to snip by hand"
    return counted(figures.thread_cuts, "thread cut")


def wound_text(bobbins: Bobbins, kind: str) -> str:
    """Return which bobbins to wind with one colour, for all stages.

    Example:
        >>> wound = Bobbins(colour="#6a5acd", count=3, changes=(), left_mm=0, full_mm=36_000)
        >>> wound_text(wound, "L")
        '3 L bobbins with slateblue'
    """
    return f"{counted(bobbins.count, f'{kind} bobbin')} with {thread_name(bobbins.colour)}"


def threads_text(stage: Stage) -> str:
    """Return a stage's pair of threads by the names of their colours."""
    return (
        f"top thread {thread_name(stage.thread.top)}, "
        f"bobbin thread {thread_name(stage.thread.bobbin)}"
    )


def stage_facts(stage: Stage, unit: Unit) -> tuple[str, ...]:
    """Return the lines under the title of a stage's picture."""
    piece = stage.piece
    extent = size(piece.width, piece.length, unit)
    return (
        f"stage {stage.name}, on the {piece.name} of {extent}: face up, its top at the top",
        f"{counted(len(stage.hoopings), 'hooping')}, {figures_text(stage.figures)}",
        threads_text(stage),
        *_BASTED[: any(sewn.basting.stitches for sewn in stage.hoopings)],
    )


def hooping_facts(
    stage: Stage, hooping: Hooping, figures: Figures, unit: Unit
) -> tuple[str, ...]:
    """Return the lines under the title of a hooping's picture."""
    field = f"field {format_field(hooping.field, unit)}, {field_lies(hooping)}"
    left, top = (format_length(distance, unit) for distance in hooping.centre)
    number = f"hooping {hooping.number} of {len(stage.hoopings)}"
    return (
        f"stage {stage.name}, {number}, as it lies in the hoop: {field}",
        figures_text(figures),
        f"field's centre on the {stage.piece.name}: {left} from its left, {top} from its top",
        threads_text(stage),
    )


def mark_measures(
    place: tuple[float, float], piece: Piece, unit: Unit
) -> tuple[str, str, str, str, str]:
    """Return a place's distances from a piece's left, right, top, bottom edge and its middle.

    Minus is beyond the edge.
    """
    x, y = place
    edges = (x, piece.width - x, y, piece.length - y)
    left, right, top, bottom = (format_length(distance, unit) for distance in edges)
    across = _beside(x - piece.centre[0], "left", "right", unit)
    along = _beside(y - piece.centre[1], "up", "down", unit)
    return left, right, top, bottom, f"{across}, {along}"


def _beside(distance: float, before: str, after: str, unit: Unit) -> str:
    if abs(distance) <= SAME_POINT_MM:
        return "0"
    return f"{format_length(abs(distance), unit)} {before if distance < 0 else after}"


def basting_text(basting: Basting) -> str:
    """Return what is basted first and comes out again; empty where nothing is.

    Example:
        >>> basting_text(Basting(marks=("A", "C"), box=True))
        'basted first, and taken out when the quilt is done: marks A, C; a box round the work'
        >>> basting_text(Basting())
        ''
    """
    marks = f"mark{'s' * (len(basting.marks) > 1)} {', '.join(basting.marks)}"
    parts = [marks] * bool(basting.marks) + ["a box round the work"] * basting.box
    told = "; ".join(parts)
    return told and f"basted first, and taken out when the quilt is done: {told}"


def later_threads_text(stage: Stage, sewn: SewnHooping) -> str:
    """Return which threads besides the stage's a hooping needs; empty where it needs none."""
    told = [later_thread_text(stage, number) for number in sewn.threads if number]
    begun = f"begins with {told.pop(0)}" if sewn.threads[:1] > (0,) else ""
    stops = f"the machine stops for {', then for '.join(told)}" if told else ""
    return "; ".join(filter(None, (begun, stops)))


def later_thread_text(stage: Stage, number: int) -> str:
    """Return one of the threads after the stage's, and the file that asks for it."""
    source, colour = stage.later_threads[number - 1]
    return f"{thread_name(colour) if colour else 'another colour'} for {source}"


def turned_by(before_deg: float, after_deg: float) -> str:
    """Return by how much a piece is turned between two hoopings, and which way; empty for not.

    The piece turns against its fields, which are turned by quarters.

    Example:
        >>> turned_by(0, 270), turned_by(90, 270), turned_by(0, 90), turned_by(90, 90)
        ('90 degrees clockwise', '180 degrees', '90 degrees anticlockwise', '')
    """
    quarters = round((before_deg - after_deg) / 90) % 4
    told = ("", "90 degrees clockwise", "180 degrees", "90 degrees anticlockwise")
    return told[quarters]


def past_edges(overhang: Overhang, unit: Unit) -> str:
    """Return which edges of the piece the ring reaches past, and how far; empty for none.

    Example:
        >>> past_edges(Overhang(left=30, right=30, bottom=26), "mm")
        '30 mm past the left and right edges, 26 mm past the bottom edge'
    """
    sides: dict[str, list[str]] = {}
    for side, far in asdict(overhang).items():
        if far > GRID_MM:
            sides.setdefault(format_length(far, unit), []).append(side)
    return ", ".join(
        f"{far} past the {_listed(names)} edge{'s' * (len(names) > 1)}"
        for far, names in sides.items()
    )


def _listed(names: list[str]) -> str:
    *others, last = names
    return f"{', '.join(others)} and {last}" if others else last


def field_lies(hooping: Hooping) -> str:
    """Return how a field lies on its piece.

    Example:
        >>> field_lies(Hooping(number=1, field=(200, 300), centre=(0, 0), turn_deg=-90))
        'with its top to the left'
    """
    turned = hooping.turn_deg % 360
    return _LIES.get(turned, f"turned {turned:g} degrees clockwise")
