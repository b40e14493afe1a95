"""How a hooping finds its place: its marks, whom it joins, and what to do where it slipped."""

from stitchpath.model.hooping import Mark
from stitchpath.model.plan import VISIBLE_MM, Plan, SewnHooping, Stage
from stitchpath.preview.booklet.facts import tenths
from stitchpath.preview.booklet.front import table
from stitchpath.preview.booklet.markup import Markup, joined, tag
from stitchpath.preview.data import Files
from stitchpath.preview.joins import Meeting, meetings_of
from stitchpath.units import Unit, format_length, format_small_length

_PLACED_BY = 2
_MARK_HEADS = ("mark", "from the left", "from the top", "in the field, mm")
_JOIN_HEADS = ("joins", "sewn", "places", "may miss by")


def placing(plan: Plan, stage: Stage, sewn: SewnHooping, files: Files) -> Markup:
    """Return a hooping's marks, joins, and the command that refits it; nothing without any."""
    marks, joins = _marks(plan, stage, sewn), _joins(plan, stage, sewn)
    named = (("marks", marks), ("joins", joins))
    blocks = [tag("div", block, class_=name) for name, block in named if block]
    refit = _refit(stage, sewn, files)
    return joined(tag("div", *blocks, class_="placing") if blocks else None, refit)


def _marks(plan: Plan, stage: Stage, sewn: SewnHooping) -> Markup:
    if not sewn.hooping.marks:
        return joined()
    unit = plan.project.units

    def row(mark: Mark) -> tuple[str, str, str, str]:
        left, top = (format_length(distance, unit) for distance in mark.piece)
        return mark.name, left, top, tenths(mark.field)

    how = (
        "Hoop so that the needle can be lowered on the marks. Distances are from the finished "
        f"edges of the {stage.piece.name}, face up; in the field from its centre, to the right "
        "and down."
    )
    if new := sewn.basting.marks:
        them = "it is" if len(new) == 1 else "they are"
        marks = "mark" if len(new) == 1 else "marks"
        how = f"Draw {marks} {', '.join(new)} first: {them} basted here, not there yet. {how}"
    rows = [row(mark) for mark in sewn.hooping.marks]
    return joined(table(_MARK_HEADS, rows), tag("p", how, class_="small"))


def _refit(stage: Stage, sewn: SewnHooping, files: Files) -> Markup:
    marks = sewn.hooping.marks[:_PLACED_BY]
    if len(marks) < _PLACED_BY:
        return joined()
    number = sewn.hooping.number
    format_ = next(iter(files.get((stage.name, number), {})), "dst")
    words = [
        "stitchpath refit PROJECT",
        f"--stage {stage.name}",
        f"--hooping {number}",
        *(f"--mark {mark.name}=x,y" for mark in marks),
        f"--out {stage.name}-{number:02d}-again.{format_}",
    ]
    command = [part for word in words for part in (tag("span", word, class_="whole"), " ")]
    return tag(
        "p",
        "Where the needle does not land on the marks: with the machine stopped, move the field "
        "by its keys until it does, write down the places x,y that the machine shows, type ",
        tag("code", *command[:-1]),
        ", PROJECT being your project file. Sew what this writes instead.",
        class_="small",
    )


def _joins(plan: Plan, stage: Stage, sewn: SewnHooping) -> Markup:
    meetings = meetings_of(plan, stage, sewn.hooping.number)
    if not meetings:
        return joined()
    unit = plan.project.units
    error = format_small_length(plan.project.hoopings.placing_error, unit)
    how = (
        "Joins are the diamonds in the picture. 95 of 100 miss by less, where marks are met "
        f"within {error}; from {format_small_length(VISIBLE_MM, unit)} on it shows."
    )
    rows = [_join_row(meeting, sewn.hooping.number, unit) for meeting in meetings]
    return joined(table(_JOIN_HEADS, rows), tag("p", how, class_="small"))


def _join_row(meeting: Meeting, number: int, unit: Unit) -> tuple[str, str, str, str]:
    count, crossings = len(meeting.places), meeting.on_crossings
    hidden = f", {crossings} on crossings" if crossings else ""
    if crossings == count:
        hidden = ", on a crossing" if count == 1 else ", all on crossings"
    return (
        f"hooping {meeting.other}",
        "before" if meeting.other < number else "later",
        f"{count}{hidden}",
        "-" if meeting.miss_mm is None else format_small_length(meeting.miss_mm, unit),
    )
