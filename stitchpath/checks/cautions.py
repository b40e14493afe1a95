"""What to mind whoever sews: the usual cautions that are due for this project.

Measure: none; what the plan has (several hoopings, a pocket, a thick sandwich) decides which
cautions of `catalog/cautions.py` are due. Sources stand beside each there. Limits: they are no
list of all dangers, and defer to the machine's manual and to local rules. No project can
silence them.
"""

from collections.abc import Iterator

from stitchpath.catalog.cautions import CAUTIONS, THICK_MM, Occasion
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan

CODE = "cautions"


def check(plan: Plan) -> Iterator[Finding]:
    """Say the cautions that are due, each as a note."""
    due = _occasions(plan)
    for caution in CAUTIONS:
        if caution.when in due:
            yield Finding(code=CODE, level=Level.NOTE, text=caution.text)


def _occasions(plan: Plan) -> set[Occasion]:
    due: set[Occasion] = {"always"}
    if any(len(stage.hoopings) > 1 for stage in plan.stages):
        due.add("moved-hoop")
    if plan.project.pocket is not None:
        due.add("pocket")
    if any(stage.thickness_mm >= THICK_MM for stage in plan.stages):
        due.add("thick")
    return due
