"""The booklet's first pages: what it is, what was found, what to cut, which thread."""

from collections.abc import Sequence
from typing import Final

from stitchpath.model.finding import Finding
from stitchpath.model.plan import Plan, Stage
from stitchpath.preview.booklet.markup import Markup, joined, name_text, tag
from stitchpath.preview.words import duration, metres, size, thread_name, wound_text
from stitchpath.units import format_length_up

_PANELS: Final = " What is wider than its cloth is cut in panels: cutting-list.txt says how."


def title_page(plan: Plan) -> Markup:
    """Return the project's name and what it comes to."""
    quilt, figures = plan.project.quilt, plan.figures
    hoopings = sum(len(stage.hoopings) for stage in plan.stages)
    bobbins = sum(wound.count for wound in plan.estimate.bobbins)
    facts = (
        ("finished", size(quilt.width, quilt.length, plan.project.units)),
        ("hoopings", f"{hoopings:,}"),
        ("stitches", f"{figures.stitches:,}"),
        ("sewing", duration(figures.seconds)),
        ("full bobbins", f"{bobbins} {plan.project.machine.bobbin}"),
    )
    return tag(
        "header",
        tag("h1", name_text(plan.project.name)),
        tag("dl", *(_fact(name, value) for name, value in facts), class_="facts"),
        tag(
            "p",
            "Sewing is stitching, thread cuts and pauses; hooping comes on top.",
            class_="small",
        ),
    )


def safety(cautions: Sequence[str]) -> Markup:
    """Return the cautions; nothing without any."""
    if not cautions:
        return joined()
    rows = (tag("li", f"{caution[:1].upper()}{caution[1:]}.") for caution in cautions)
    return section("safety", "Stay safe", tag("ul", *rows, class_="cautions"))


def findings_section(findings: Sequence[Finding]) -> Markup:
    """Return what the checks said, numbered as in the pictures."""
    if not findings:
        said = tag("p", "The checks found nothing to say.")
    else:
        said = tag("ol", *map(_finding, findings), class_="findings")
    return section("findings", "What the checks say", said)


def cutting_section(plan: Plan, *, drawn_in: bool) -> Markup:
    """Return what to cut; nothing where nothing is.

    Args:
        plan: Gives the sizes.
        drawn_in: Whether the sizes count in what quilting draws in.
    """
    if not plan.cutting:
        return joined()
    unit = plan.project.units
    rows = [
        (
            cut.what,
            str(cut.count),
            format_length_up(cut.width, unit),
            format_length_up(cut.length, unit),
        )
        for cut in plan.cutting
    ]
    return section(
        "cutting",
        "What to cut",
        table(("piece", "how many", "width", "length"), rows),
        tag(
            "p",
            "Seams and shrinkage are in these sizes; what quilting itself draws in is "
            f"{'too' if drawn_in else 'not'}.{_PANELS * _has_panels(plan)}",
            class_="small",
        ),
    )


def _has_panels(plan: Plan) -> bool:
    """Tell whether some piece is cut in parts, which the cutting list does not name."""
    whole = {cut.what for cut in plan.cutting}
    return any(
        part.what not in whole for cloth in plan.estimate.cloths for part in cloth.pieces
    )


def thread_section(plan: Plan, changes: Markup) -> Markup:
    """Return each stage's threads, which bobbins to wind for all, and where to change them."""
    rows = [row for stage in plan.stages for row in _thread_rows(stage)]
    heads = ("stage", "thread", "length")
    return section("thread", "Thread and bobbins", table(heads, rows), _wound(plan), changes)


def section(name: str, title: str, *inside: Markup) -> Markup:
    """Return a section with its heading, which names it for readers of a screen."""
    head = tag("h2", title, id=f"{name}-title")
    return tag("section", head, *inside, id=name, aria_labelledby=f"{name}-title")


def table(heads: Sequence[str], rows: Sequence[Sequence[str | Markup]]) -> Markup:
    """Return a table; the first cell of a row is its heading."""
    top = tag("tr", *(tag("th", head, scope="col") for head in heads))
    body = (
        tag("tr", tag("th", row[0], scope="row"), *(tag("td", cell) for cell in row[1:]))
        for row in rows
    )
    inside = tag("table", tag("thead", top), tag("tbody", *body))
    return tag("div", inside, class_="wide")


def _fact(name: str, value: str) -> Markup:
    return tag("div", tag("dt", name), tag("dd", value))


def _finding(finding: Finding) -> Markup:
    level = tag("span", str(finding.level), class_=f"level {finding.level}")
    stage = f" {finding.stage}: " if finding.stage else " "
    advice = tag("span", f" {finding.help}", class_="advice") if finding.help else None
    why = f" Silenced: {finding.silenced}" if finding.silenced else ""
    silenced = tag("span", why, class_="advice") if why else None
    return tag("li", level, stage, finding.text, advice, silenced)


def _wound(plan: Plan) -> Markup:
    kind = plan.project.machine.bobbin
    rows = [tag("li", wound_text(one, kind)) for one in plan.estimate.bobbins]
    return joined(tag("h3", "Bobbins to wind"), tag("ul", *rows)) if rows else joined()


def _thread_rows(stage: Stage) -> tuple[tuple[str | Markup, ...], ...]:
    """Return a row for each side: both in one would be wider than a telephone."""
    thread, figures = stage.thread, stage.figures
    return (
        (f"{stage.name}, top", _thread(thread.top), metres(figures.top_thread_mm)),
        (f"{stage.name}, bobbin", _thread(thread.bobbin), metres(figures.bobbin_thread_mm)),
    )


def _thread(colour: str) -> Markup:
    """Return a patch of thread and its colour's name."""
    patch = tag(
        "rect", x="0.5", y="0.5", width="27", height="13", rx="3", fill=colour, class_="patch"
    )
    drawn = tag("svg", patch, viewBox="0 0 28 14", class_="swatch", aria_hidden="true")
    return joined(drawn, " ", thread_name(colour))
