"""A stage and a hooping of a plan, picked by options."""

from stitchpath.cli.options import option_number
from stitchpath.errors import StitchpathError
from stitchpath.model.plan import Plan, SewnHooping, Stage


def find_stage(planned: Plan, name: str | None, *, purpose: str) -> Stage:
    """Return a plan's stage by its name, or the one of most stitches.

    Args:
        planned: The plan.
        name: As typed, or None.
        purpose: What it is wanted for, a verb.

    Raises:
        StitchpathError: The project has no such stage, or none at all.
    """
    stages = {stage.name: stage for stage in planned.stages}
    if not stages:
        raise StitchpathError(
            f"the project sews nothing, so there is nothing to {purpose}\n"
            "help: add quilting, an edge line or a pocket"
        )
    if name is None:
        return max(planned.stages, key=lambda stage: stage.figures.stitches)
    for stage in planned.stages:
        if stage.name == name:
            return stage
    listed = ", ".join(f"`{known}`" for known in stages)
    raise StitchpathError(f"there is no stage `{name}` in this project\nhelp: it has {listed}")


def find_hooping(stage: Stage, text: str) -> SewnHooping:
    """Return a stage's hooping by its number as typed.

    Raises:
        UsageError: There is no such number.
    """
    number = option_number("--hooping", text, low=1, high=len(stage.hoopings), whole=True)
    return stage.hoopings[int(number) - 1]
