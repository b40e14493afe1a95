"""`preview`: one picture."""

import sys
from pathlib import Path

from stitchpath.cli.files import load_project
from stitchpath.cli.folder import write_file
from stitchpath.cli.usage import UsageError
from stitchpath.errors import StitchpathError
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.pipeline import plan
from stitchpath.preview import draw_hooping, draw_stage


def draw_project(path: Path, out: Path, *, stage_name: str, number: int, replace: bool) -> None:
    """Write one picture of a project.

    Raises:
        StitchpathError: The project has problems, has no such stage or hooping, or the picture
            cannot be written.
    """
    if out.suffix.lower() != ".svg":
        raise UsageError(f"`{out.name}` should end in .svg: pictures are drawn as SVG")
    planned = plan(load_project(path))
    stage = _stage(planned, stage_name)
    picture = (
        draw_hooping(planned, stage, _hooping(stage, number))
        if number
        else draw_stage(planned, stage)
    )
    write_file(out, picture.encode(), replace=replace)
    print(f"wrote {out}", file=sys.stderr)


def _stage(planned: Plan, name: str) -> Stage:
    names = [stage.name for stage in planned.stages]
    if not names:
        raise StitchpathError("the project sews nothing, so there is nothing to draw")
    if name and name not in names:
        raise StitchpathError(
            f"there is no stage `{name}`\nhelp: this project has {', '.join(names)}"
        )
    if name:
        return planned.stages[names.index(name)]
    return max(planned.stages, key=lambda stage: stage.figures.stitches)


def _hooping(stage: Stage, number: int) -> SewnHooping:
    if number > len(stage.hoopings):
        raise StitchpathError(
            f"there is no hooping {number}\n"
            f"help: the stage {stage.name} has 1 to {len(stage.hoopings)}"
        )
    return stage.hoopings[number - 1]
