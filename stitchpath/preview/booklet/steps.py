"""The steps of the job, in order, each with a box to tick."""

from collections.abc import Iterator

from stitchpath.model.estimate import BobbinChange
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview.booklet.facts import hooping_id, turn_text
from stitchpath.preview.booklet.front import section
from stitchpath.preview.booklet.markup import Markup, joined, tag
from stitchpath.preview.data import Files
from stitchpath.preview.words import counted, duration, thread_name, wound_text


def steps_section(plan: Plan, files: Files) -> Markup:
    """Return everything there is to do, in order."""
    parts = [_group("Before sewing", _before(plan))]
    parts += [
        _group(f"Stage {stage.name}", _stage_steps(plan, stage, files)) for stage in plan.stages
    ]
    bar = tag(
        "p",
        tag("output", "", id="done", for_="steps"),
        " ",
        tag("button", "Clear all ticks", type="button", id="clear-ticks"),
        class_="tick-bar",
        hidden=True,
    )
    return section("steps", "Steps, in order", bar, *parts)


def tick(name: str, *label: str | Markup) -> Markup:
    """Return a box to tick with its label; boxes of one name are ticked together."""
    box = tag("input", type="checkbox", data_tick=name, autocomplete="off")
    return tag("label", box, tag("span", *label), class_="tick")


def _group(title: str, steps: Iterator[Markup]) -> Markup:
    rows = (tag("li", step) for step in steps)
    return joined(tag("h3", title), tag("ol", *rows, class_="steps"))


def _before(plan: Plan) -> Iterator[Markup]:
    if any(finding.is_caution for finding in plan.findings):
        yield tick("safety", "Read ", _to("safety", "how to stay safe"))
    yield tick("findings", "Read ", _to("findings", "what the checks say"))
    if plan.cutting:
        yield tick("cut", "Cut ", _to("cutting", "the pieces"))
    for bobbins in plan.estimate.bobbins:
        wound = wound_text(bobbins, plan.project.machine.bobbin)
        yield tick(f"wind {bobbins.colour}", f"Wind {wound}")


def _stage_steps(plan: Plan, stage: Stage, files: Files) -> Iterator[Markup]:
    thread = stage.thread
    yield tick(f"{stage.name} hoop", _layers(stage))
    yield tick(
        f"{stage.name} thread",
        f"Thread the needle with {thread_name(thread.top)}; "
        f"put in a bobbin of {thread_name(thread.bobbin)}",
    )
    drawn = stage.hoopings[:1] if plan.project.hoopings.sew_marks else stage.hoopings
    count = len({mark.name for sewn in drawn for mark in sewn.hooping.marks})
    if count:
        yield tick(
            f"{stage.name} marks",
            f"Draw the {counted(count, 'placement mark')}; try the marker on a scrap first",
        )
    for sewn in stage.hoopings:
        yield from _turn(stage, sewn)
        yield from _bobbin_before(plan, stage, sewn)
        yield tick(hooping_id(stage, sewn.hooping), *_sew(stage, sewn, files))


def _turn(stage: Stage, sewn: SewnHooping) -> Iterator[Markup]:
    if told := turn_text(stage, sewn.hooping):
        name = f"{hooping_id(stage, sewn.hooping)} turn"
        yield tick(name, f"{told[:1].upper()}{told[1:].removesuffix(' first')}")


def _bobbin_before(plan: Plan, stage: Stage, sewn: SewnHooping) -> Iterator[Markup]:
    """Say that the bobbin is changed, where it would run out in the next hooping, or does."""
    key = (stage.name, sewn.hooping.number)
    for bobbins in plan.estimate.bobbins:
        colour = thread_name(bobbins.colour)
        for change in bobbins.changes:
            if (change.stage, change.hooping) == key:
                name = f"{hooping_id(stage, sewn.hooping)} bobbin {change.stitch}"
                yield tick(name, _bobbin_text(colour, change))


def _bobbin_text(colour: str, change: BobbinChange) -> str:
    if change.within:
        return (
            f"Have a full bobbin of {colour} ready: in the next hooping one runs out after "
            f"about {change.stitch:,} stitches"
        )
    return f"Put in a new bobbin of {colour}: the old one would run out in the next hooping"


def _layers(stage: Stage) -> str:
    if stage.name == "seam":
        return "Lay the quilted pocket on the quilt and baste it; no pins inside a field"
    return f"Layer and baste the {stage.piece.name}; no pins inside a field"


def _sew(stage: Stage, sewn: SewnHooping, files: Files) -> Iterator[str | Markup]:
    number = sewn.hooping.number
    yield "Hoop and sew "
    yield _to(hooping_id(stage, sewn.hooping), f"{stage.name}, hooping {number}")
    paths = list(files.get((stage.name, number), {}).values())
    if paths:
        yield " from "
        yield tag("code", paths[0])
    yield f": {duration(sewn.figures.seconds)}"


def _to(place: str, words: str) -> Markup:
    return tag("a", words, href=f"#{place}")
