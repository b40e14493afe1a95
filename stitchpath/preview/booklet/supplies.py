"""What to buy, where bobbins end, how the quilt folds, what an evening holds.

All of it is read from the data of plan.json, whose keys may grow: what is not in the data is
left out of the booklet.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, TypeAlias

from stitchpath.preview.booklet.front import section, table
from stitchpath.preview.booklet.markup import Markup, joined, tag
from stitchpath.preview.words import counted, duration, metres, sold_size, thread_name
from stitchpath.units import Unit, format_cloth, format_length

Data: TypeAlias = Mapping[str, Any]
"""What `plan_data` returns."""


def buying_section(data: Data, unit: Unit) -> Markup:
    """Return what to buy; nothing where the data does not tell."""
    buying = data.get("buying") or {}
    things = [*_cloths(buying, unit), *_batting(buying, unit), *_threads(buying)]
    if not things:
        return joined()
    return section("buying", "What to buy", table(("what", "how much", "of which"), things))


def bobbin_changes(data: Data) -> Markup:
    """Return where bobbins are changed; nothing where the data does not tell."""
    bobbins = (data.get("buying") or {}).get("bobbins") or ()
    rows = [tag("li", change) for bobbin in bobbins for change in _changes(bobbin)]
    if not rows:
        return joined()
    return joined(tag("h3", "Change the bobbin"), tag("ul", *rows))


def folding_section(data: Data) -> Markup:
    """Return how the quilt folds into its pocket; nothing without one."""
    steps: Sequence[str] = (data.get("folding") or {}).get("steps") or ()
    if not steps:
        return joined()
    rows = (tag("li", f"{step[:1].upper()}{step[1:]}") for step in steps)
    return section("folding", "Fold it into its pocket", tag("ol", *rows))


def sessions_section(data: Data) -> Markup:
    """Return what is sewn in which evening; nothing where the data does not tell."""
    sessions = data.get("sessions") or ()
    if not sessions:
        return joined()
    rows = [
        (f"evening {number}", _span(one), counted(one["hoopings"], "hooping"), _takes(one))
        for number, one in enumerate(sessions, 1)
    ]
    told = table(("evening", "from and to", "hoopings", "at the machine"), rows)
    return section("sessions", "Evening by evening", told)


def _cloths(buying: Data, unit: Unit) -> Iterator[tuple[str, str, str]]:
    for cloth in buying.get("cloth") or ():
        wide = f"cloth of {format_length(cloth['usable_width'], unit)} usable width"
        yield f"{cloth['name']}", format_cloth(cloth["buy"], unit), wide


def _batting(buying: Data, unit: Unit) -> Iterator[tuple[str, str, str]]:
    if batting := buying.get("batting"):
        ready = sold_size(batting["width"], batting["length"], unit)
        yield "batting", "1 ready-cut", f"{batting['name']}, {ready}"


def _threads(buying: Data) -> Iterator[tuple[str, str, str]]:
    for thread in buying.get("thread") or ():
        spools = counted(thread["spools"], "spool")
        yield f"{thread_name(thread['colour'])} thread", metres(thread["buy_mm"]), spools


def _changes(bobbin: Data) -> Iterator[str]:
    colour = thread_name(bobbin["colour"])
    for change in bobbin.get("changes") or ():
        place = f"{change['stage']}, hooping {change['hooping']}"
        if change["within"]:
            yield f"{colour}: in {place}, after about stitch {change['stitch']:,}"
        else:
            yield f"{colour}: before {place}"


def _span(session: Data) -> str:
    first, last = (
        f"{end['stage']}, hooping {end['hooping']}"
        for end in (session["first"], session["last"])
    )
    return first if first == last else f"{first} to {last}"


def _takes(session: Data) -> str:
    return duration(session["seconds"]) + (
        ", longer than the evening" if session["over"] else ""
    )
