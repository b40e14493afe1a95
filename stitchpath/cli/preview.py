"""`preview`: one picture."""

from pathlib import Path

from stitchpath.cli.files import load_project
from stitchpath.cli.folder import write_file
from stitchpath.cli.pick import find_hooping, find_stage
from stitchpath.cli.terminal import plain, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE
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
    stage = find_stage(planned, stage_name, purpose="draw")
    if hooping is not None:
        picture = draw_hooping(planned, stage, find_hooping(stage, hooping))
    else:
        picture = draw_design(stage) if design else draw_stage(planned, stage)
    write_file(out, picture.encode(), replace=replace)
    tell(plain(f"wrote `{out}`"))
    return EXIT_DONE
