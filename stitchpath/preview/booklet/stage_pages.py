"""A stage's overview, and a page for each of its hoopings."""

from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview.booklet.facts import hooping_id, ring_text, throat_text, turn_text
from stitchpath.preview.booklet.front import section
from stitchpath.preview.booklet.markup import Markup, joined, tag
from stitchpath.preview.booklet.pictures import hooping_picture, stage_overview
from stitchpath.preview.booklet.placing import placing
from stitchpath.preview.booklet.steps import tick
from stitchpath.preview.data import Files
from stitchpath.preview.finding_layers import finding_places
from stitchpath.preview.words import (
    basting_text,
    counted,
    cuts_text,
    duration,
    field_lies,
    later_threads_text,
    metres,
    stage_facts,
)
from stitchpath.units import format_field, format_length


def overview(plan: Plan) -> Markup:
    """Return a picture of each stage, with its hoopings as links to their pages."""
    placed = {stage.name: finding_places(plan, stage) for stage in plan.stages}
    most = max((len(stage.hoopings) for stage in plan.stages), default=0)
    figures = (
        tag(
            "figure",
            stage_overview(stage, placed[stage.name]),
            tag("figcaption", f"Stage {stage.name}, on the {stage.piece.name}"),
            class_="main" if len(stage.hoopings) == most else None,
        )
        for stage in plan.stages
    )
    reading = "Each rectangle is a field: choose one for its page. The head stands at its top."
    if any(placed.values()):
        reading += " A triangle is a place that a check warns of, with its number in the list."
    return section(
        "overview",
        "All hoopings",
        tag("div", *figures, class_="overviews"),
        tag("p", reading, class_="small"),
    )


def stage_pages(plan: Plan, stage: Stage, files: Files) -> Markup:
    """Return a stage's section, hooping after hooping."""
    facts = stage_facts(stage, plan.project.units)
    lines = (tag("li", f"{fact[:1].upper()}{fact[1:]}") for fact in facts)
    return section(
        f"stage-{stage.name}",
        f"Stage {stage.name}",
        tag("ul", *lines, class_="plain"),
        _watch(stage.name, 0, f"Watch the whole stage {stage.name}"),
        *(_page(plan, stage, sewn, files) for sewn in stage.hoopings),
    )


def _page(plan: Plan, stage: Stage, sewn: SewnHooping, files: Files) -> Markup:
    hooping, name = sewn.hooping, hooping_id(stage, sewn.hooping)
    title = f"{stage.name}, hooping {hooping.number} of {len(stage.hoopings)}"
    facts = tag(
        "dl", *(_fact(*fact) for fact in _facts(plan, stage, sewn, files)), class_="rows"
    )
    return tag(
        "article",
        tag("h3", title, id=f"{name}-title"),
        tag(
            "div",
            tag("figure", hooping_picture(plan, stage, sewn)),
            tag("div", facts, placing(plan, stage, sewn, files), _done(stage, sewn)),
            class_="beside",
        ),
        id=name,
        class_="hooping",
        aria_labelledby=f"{name}-title",
    )


def _facts(
    plan: Plan, stage: Stage, sewn: SewnHooping, files: Files
) -> list[tuple[str, str | Markup]]:
    hooping, figures, unit = sewn.hooping, sewn.figures, plan.project.units
    left, top = (format_length(distance, unit) for distance in hooping.centre)
    paths = files.get((stage.name, hooping.number), {}).values()
    codes = [part for path in paths for part in (tag("code", path), Markup(" "))]
    moved = [counted(figures.runs, "run")]
    if figures.thread_cuts or figures.snips:
        moved.append(cuts_text(figures))
    if figures.pauses:
        moved.append(counted(figures.pauses, "pause"))
    return [
        *([("files", joined(*codes))] if codes else []),
        ("field", f"{format_field(hooping.field, unit)}, {field_lies(hooping)}"),
        ("its centre", f"{left} from the left, {top} from the top of the {stage.piece.name}"),
        *_told("turn", turn_text(stage, hooping)),
        ("throat side", throat_text(hooping, stage.piece, plan.project.machine.throat, unit)),
        *_told("ring", ring_text(hooping, plan.project.margin_of(stage.piece.name), unit)),
        *_told("bastes", basting_text(sewn.basting)),
        ("sews", f"{counted(figures.stitches, 'stitch')}, {', '.join(moved)}"),
        *([("threads", told)] if (told := later_threads_text(stage, sewn)) else []),
        ("takes", duration(figures.seconds)),
        (
            "thread",
            f"{metres(figures.top_thread_mm)} top, {metres(figures.bobbin_thread_mm)} bobbin",
        ),
    ]


def _told(name: str, words: str) -> list[tuple[str, str | Markup]]:
    return [(name, words)] if words else []


def _fact(name: str, value: str | Markup) -> Markup:
    return joined(tag("dt", name), tag("dd", value))


def _done(stage: Stage, sewn: SewnHooping) -> Markup:
    number = sewn.hooping.number
    return tag(
        "div",
        tick(hooping_id(stage, sewn.hooping), f"Sewn: {stage.name}, hooping {number}"),
        _watch(stage.name, number, f"Watch hooping {number}"),
        class_="done",
    )


def _watch(stage: str, hooping: int, words: str) -> Markup:
    """Return a button that shows a hooping (0: the whole stage) in the player."""
    button = tag(
        "button",
        words,
        type="button",
        class_="watch",
        data_watch=f"{stage} {hooping}",
        hidden=True,
    )
    return tag("p", button, class_="watching")
