"""`preview`: one picture."""

from pathlib import Path

from stitchpath.cli.files import load_project
from stitchpath.cli.folder import write_file
from stitchpath.cli.options import option_number
from stitchpath.cli.terminal import plain, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, StitchpathError
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.pipeline import plan
from stitchpath.preview import draw_design, draw_hooping, draw_stage


def draw_project(
    path: Path,
    out: Path,
    *,
    stage_name: str | None,
    hooping: str | None,
    design: bool,
    replace: bool,
) -> int:
    """Write one picture of a project; return the exit code.

    Raises:
        StitchpathError: The project has problems, has no such stage or hooping, or the picture
            cannot be written.
    """
    if out.suffix.lower() != ".svg":
        raise UsageError(
            f"--out cannot be `{out}`\nhelp: pictures are SVG: choose a name that ends in .svg"
        )
    if design and hooping is not None:
        raise UsageError("--design and --hooping are two pictures\nhelp: take one of them")
    planned = plan(load_project(path))
    stage = _stage(planned, stage_name)
    if hooping is not None:
        picture = draw_hooping(planned, stage, _hooping(stage, hooping))
    else:
        picture = draw_design(stage) if design else draw_stage(planned, stage)
    write_file(out, picture.encode(), replace=replace)
    tell(plain(f"wrote `{out}`"))
    return EXIT_DONE


def _stage(planned: Plan, name: str | None) -> Stage:
    stages = {stage.name: stage for stage in planned.stages}
    if not stages:
        raise StitchpathError(
            "the project sews nothing, so there is nothing to draw\n"
            "help: add quilting, an edge line or a pocket"
        )
    if name is None:
        return max(planned.stages, key=lambda stage: stage.figures.stitches)
    for stage in planned.stages:
        if stage.name == name:
            return stage
    listed = ", ".join(f"`{known}`" for known in stages)
    raise StitchpathError(f"there is no stage `{name}` in this project\nhelp: it has {listed}")


def _hooping(stage: Stage, text: str) -> SewnHooping:
    number = option_number("--hooping", text, low=1, high=len(stage.hoopings), whole=True)
    return stage.hoopings[int(number) - 1]
