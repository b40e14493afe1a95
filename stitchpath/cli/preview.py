"""`preview`: one picture."""

from pathlib import Path

from stitchpath.cli.files import load_project
from stitchpath.cli.folder import write_file
from stitchpath.cli.inspected import Inspected
from stitchpath.cli.options import option_number
from stitchpath.cli.reading import stitch_reader
from stitchpath.cli.stitch_files import CountOptions, count_file, counting, faults_text
from stitchpath.cli.stitch_picture import check_picture_name, picture_of
from stitchpath.cli.terminal import plain, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS, StitchpathError
from stitchpath.machine.content import format_by_name
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
    check_picture_name(out)
    if design and hooping is not None:
        raise UsageError("--design and --hooping are two pictures\nhelp: take one of them")
    if format_by_name(path.suffix) is not None:
        return _draw_file(
            path,
            out,
            replace=replace,
            of_a_project=design or stage_name is not None or hooping is not None,
        )
    planned = plan(load_project(path))
    stage = _stage(planned, stage_name)
    if hooping is not None:
        picture = draw_hooping(planned, stage, _hooping(stage, hooping))
    else:
        picture = draw_design(stage) if design else draw_stage(planned, stage)
    write_file(out, picture.encode(), replace=replace)
    tell(plain(f"wrote `{out}`"))
    return EXIT_DONE


def _draw_file(path: Path, out: Path, *, replace: bool, of_a_project: bool) -> int:
    """Write the picture of a stitch file; return the exit code."""
    if of_a_project:
        raise UsageError(
            "--stage, --hooping and --design are for projects\n"
            f"help: leave them out, `{path}` is a stitch file by its name"
        )
    with stitch_reader() as reader:
        counted = count_file(path, reader, counting(CountOptions()))
    one = Inspected.of(counted, "L", None)
    write_file(out, picture_of(counted, one.drawn_field).encode(), replace=replace)
    if text := faults_text(counted, plain(path)):
        tell(text)
    tell(plain(f"wrote `{out}`"))
    return EXIT_PROBLEMS if counted.file.sound.whole is False else EXIT_DONE


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
