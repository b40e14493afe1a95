"""Findings as text and as data."""

from collections.abc import Iterator
from typing import Any

from stitchpath.catalog.cautions import CAUTIONS
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.preview import plan_data
from stitchpath.units import Unit, format_length


def show_findings(plan: Plan, *, notes_too: bool = True) -> str:
    """Return what the checks said, worst first, one fact a line; cautions are left out.

    Like advice is given once.

    Args:
        plan: What was checked.
        notes_too: Whether notes are told; else they are counted.
    """
    found = [finding for finding in plan.findings if not finding.is_caution]
    told = [one for one in found if notes_too or one.level is not Level.NOTE]
    lines = [
        line
        for finding, after in zip(told, (*told[1:], None), strict=True)
        for line in _lines(finding, plan.project.units, helps=not _advise_alike(finding, after))
    ]
    return "\n".join([*lines, _counts(found, notes_too=notes_too)])


def findings_data(plan: Plan) -> dict[str, Any]:
    """Return what the checks said as in plan.json; a plan has no problems."""
    return {"findings": plan_data(plan, {})["findings"], "problems": []}


def cautions_of(plan: Plan) -> list[str]:
    """Return the cautions that are due, as phrases."""
    return [finding.text for finding in plan.findings if finding.is_caution]


def show_cautions(plan: Plan) -> str:
    """Return the cautions that are due, one a line."""
    return "\n".join(f"caution: {caution}" for caution in cautions_of(plan))


def show_usual_cautions() -> str:
    """Return the cautions that are always due, one a line."""
    due = [caution.text for caution in CAUTIONS if caution.when == "always"]
    return "\n".join(f"caution: {text}" for text in due)


def _advise_alike(finding: Finding, after: Finding | None) -> bool:
    """Whether what comes after a finding gives the same advice on the same matter."""
    if after is None or finding.silenced or after.silenced:
        return False
    return (finding.code, finding.help) == (after.code, after.help)


def _lines(finding: Finding, unit: Unit, *, helps: bool) -> Iterator[str]:
    stage = f" {finding.stage}:" if finding.stage else ""
    yield f"{finding.level}[{finding.code}]:{stage} {finding.text}"
    if finding.where is not None and (finding.level is not Level.NOTE or finding.silenced):
        yield f"  where: {_place(finding.where, unit)}"
    if finding.help and helps:
        yield f"  help: {finding.help}"
    if finding.silenced:
        yield f"  silenced: {finding.silenced}"


def _place(where: tuple[float, float], unit: Unit) -> str:
    left, top = (format_length(distance, unit) for distance in where)
    return f"{left} from the left edge, {top} from the top edge, as it lies face up"


def _counts(found: list[Finding], *, notes_too: bool) -> str:
    errors, warnings, notes = (
        sum(finding.level is level for finding in found) for level in Level
    )
    counts = [_count(errors, "error"), _count(warnings, "warning"), _count(notes, "note")]
    if silenced := sum(bool(finding.silenced) for finding in found):
        counts.append(f"{silenced} of them silenced")
    elsewhere = "" if notes_too or not notes else "; `stitchpath check` tells the notes"
    return ", ".join(counts) + elsewhere


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
