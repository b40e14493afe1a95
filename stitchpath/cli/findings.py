"""Findings as text and as data."""

from typing import Any

from stitchpath.model.finding import Level
from stitchpath.model.plan import Plan
from stitchpath.preview import plan_data
from stitchpath.units import Unit, format_length

CAUTIONS = (
    "keep hands out of the field while the machine runs, and stop it to clear a thread",
    "trace each hooping's outline before sewing, so that the needle cannot meet the ring",
    "no pins inside the field; never leave the machine running unattended",
    "loose quilts and cushions do not belong in a sleeping baby's cot",
    "the machine's manual and local rules come before anything written here",
)
"""The usual cautions. Common practice; on infants, see docs/sources.md."""


def show_findings(plan: Plan) -> str:
    """Return what the checks said, worst first, one fact a line."""
    lines: list[str] = []
    for finding in plan.findings:
        stage = f" {finding.stage}:" if finding.stage else ""
        lines.append(f"{finding.level}[{finding.code}]:{stage} {finding.text}")
        if finding.where is not None and finding.level is not Level.NOTE:
            lines.append(f"  where: {_place(finding.where, plan.project.units)}")
        if finding.help:
            lines.append(f"  help: {finding.help}")
    counts = [sum(finding.level is level for finding in plan.findings) for level in Level]
    errors, warnings, notes = counts
    lines.append(
        f"{_count(errors, 'error')}, {_count(warnings, 'warning')}, {_count(notes, 'note')}"
    )
    return "\n".join(lines)


def findings_data(plan: Plan) -> dict[str, Any]:
    """Return what the checks said as in plan.json; a plan has no problems."""
    return {"findings": plan_data(plan, {})["findings"], "problems": []}


def show_cautions() -> str:
    """Return the usual cautions, one a line."""
    return "\n".join(f"caution: {caution}" for caution in CAUTIONS)


def _place(where: tuple[float, float], unit: Unit) -> str:
    left, top = (format_length(distance, unit) for distance in where)
    return f"{left} from the left edge, {top} from the top edge, as it lies face up"


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
