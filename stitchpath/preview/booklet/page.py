"""The whole booklet as one HTML file that needs nothing but itself.

A policy in its head forbids the network and everything but the one style and the one script
that are in it, by their digests (Content Security Policy Level 3, W3C, 4.2.1 and 8.4).
"""

import base64
import hashlib
import re
from collections.abc import Sequence
from importlib import resources
from typing import Final

from stitchpath.model.plan import Plan
from stitchpath.preview.booklet.front import (
    cutting_section,
    findings_section,
    safety,
    thread_section,
    title_page,
)
from stitchpath.preview.booklet.markup import Markup, script_json, style_string, tag
from stitchpath.preview.booklet.player import player_data, player_section
from stitchpath.preview.booklet.stage_pages import overview, stage_pages
from stitchpath.preview.booklet.steps import steps_section
from stitchpath.preview.booklet.supplies import (
    Data,
    bobbin_changes,
    buying_section,
    folding_section,
    sessions_section,
)
from stitchpath.preview.colours import CLOTH, DESIGN, HOOP, INK, NIGHT, PAGE, RING, SOFT_INK
from stitchpath.preview.data import Files, plan_data

_ID: Final = re.compile(r'^<section id="([\w-]+)"')
_STYLES: Final = ("booklet.css", "print.css")
_SCRIPTS: Final = (
    "points.js",
    "tape.js",
    "view.js",
    "sheets.js",
    "pointer.js",
    "player.js",
    "ticks.js",
    "start.js",
)
_DAY: Final = {
    "page": PAGE,
    "cloth": CLOTH,
    "ink": INK,
    "soft": SOFT_INK,
    "design": DESIGN,
    "hoop": HOOP,
    "ring": RING,
}


def draw_booklet(plan: Plan, files: Files, data: Data | None = None) -> str:
    """Return the booklet as an HTML document. The same plan gives the same text.

    Args:
        plan: What to tell.
        files: The stitch files of each stage and hooping number, by format; may be empty.
        data: What `plan_data` says of the plan, where it has been asked already.
    """
    told = plan_data(plan, files) if data is None else data
    played = script_json(player_data(plan))
    sections = _sections(plan, files, told)
    style, script = _style(plan.project.name), _parts(_SCRIPTS)
    key = hashlib.sha256(f"{plan.project.name}\n{played}".encode(errors="replace")).hexdigest()
    head = tag(
        "head",
        tag("meta", charset="utf-8"),
        tag("meta", http_equiv="Content-Security-Policy", content=_policy(style, script)),
        tag("title", f"{plan.project.name}: booklet"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("meta", name="color-scheme", content="light dark"),
        tag("style", Markup(style)),
    )
    body = tag(
        "body",
        tag("a", "Skip to the steps", href="#steps", class_="skip"),
        title_page(plan),
        _contents(sections),
        tag("main", *(inside for _, inside in sections)),
        tag("script", played, type="application/json", id="plan"),
        tag("script", Markup(script)),
        data_key=key[:16],
    )
    return f"<!doctype html>\n{tag('html', head, body, lang='en-GB')}\n"


def _sections(plan: Plan, files: Files, data: Data) -> list[tuple[str, Markup]]:
    """Return the sections that have something to say, with their names in the contents."""
    unit = plan.project.units
    due = [finding.text for finding in plan.findings if finding.is_caution]
    found = [finding for finding in plan.findings if not finding.is_caution]
    sections = [
        ("Hoopings", overview(plan)),
        ("Safety", safety(due)),
        ("Findings", findings_section(found)),
        ("Buying", buying_section(data, unit)),
        ("Cutting", cutting_section(plan, drawn_in="draw_in" in data)),
        ("Thread", thread_section(plan, bobbin_changes(data))),
        ("Evenings", sessions_section(data)),
        ("Steps", steps_section(plan, files)),
        ("Watch", player_section(plan)),
        *((f"Stage {stage.name}", stage_pages(plan, stage, files)) for stage in plan.stages),
        ("Folding", folding_section(data)),
    ]
    return [(name, inside) for name, inside in sections if inside]


def _contents(sections: Sequence[tuple[str, Markup]]) -> Markup:
    rows = (
        tag("li", tag("a", name, href=f"#{_ID.findall(inside)[0]}"))
        for name, inside in sections
    )
    return tag("nav", tag("ul", *rows), aria_label="Contents")


def _style(name: str) -> str:
    """Return the style, with the colours of day and night and the name at a page's foot."""
    foot = f"@page{{@bottom-left{{content:{style_string(name)}}}}}"
    return "\n".join([_colours(_DAY, ":root"), _night(), _parts(_STYLES), foot])


def _colours(colours: dict[str, str], where: str) -> str:
    return f"{where}{{{''.join(f'--{name}:{colour};' for name, colour in colours.items())}}}"


def _night() -> str:
    return f"@media screen and (prefers-color-scheme:dark){{{_colours(NIGHT, ':root')}}}"


def _parts(names: Sequence[str]) -> str:
    """Return the booklet's own parts, which are files beside this one, as one text."""
    folder = resources.files("stitchpath.preview.booklet") / "parts"
    return "\n".join((folder / name).read_text(encoding="utf-8") for name in names)


def _policy(style: str, script: str) -> str:
    return (
        f"default-src 'none'; style-src {_digest(style)}; script-src {_digest(script)}; "
        "base-uri 'none'; form-action 'none'"
    )


def _digest(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"
