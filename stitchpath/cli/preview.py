"""`preview`: one picture, or the booklet, by the name of the file."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final, TypeAlias, TypeVar

from stitchpath.cli.files import plan_project
from stitchpath.cli.folder import write_file
from stitchpath.cli.inspected import Inspected
from stitchpath.cli.pick import find_hooping, find_stage
from stitchpath.cli.reading import stitch_reader
from stitchpath.cli.shared_options import CountOptions
from stitchpath.cli.stitch_files import (
    count_file,
    counting,
    faults_text,
    open_file,
)
from stitchpath.cli.stitch_picture import picture_of
from stitchpath.cli.terminal import plain, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS, StitchpathError
from stitchpath.machine.content import format_by_name
from stitchpath.model.plan import Plan
from stitchpath.preview import draw_booklet, draw_design, draw_hooping, draw_stage

_Choice = TypeVar("_Choice")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which picture, as typed; nothing named is the stage of most stitches."""

    stage: str | None = None
    hooping: str | None = None
    design: bool = False

    @property
    def is_open(self) -> bool:
        """Whether nothing was named."""
        return self == Wanted()


def draw_project(path: Path, out: Path, wanted: Wanted, *, replace: bool) -> int:
    """Write a picture of a project; return the exit code.

    Raises:
        StitchpathError: The project has problems, has no such stage or hooping, or the picture
            cannot be written.
    """
    if wanted.design and wanted.hooping is not None:
        raise UsageError("--design and --hooping are two pictures\nhelp: take one of them")
    if format_by_name(path.suffix) is not None:
        return _draw_file(path, out, wanted, replace=replace)
    write = _by_name(_WRITERS, out)
    planned = plan_project(path)
    if not planned.stages:
        raise StitchpathError(
            "the project sews nothing, so there is nothing to draw\n"
            "help: add quilting, an edge line or a pocket"
        )
    write_file(out, write(planned, wanted), replace=replace)
    tell(plain(f"wrote `{out}`"))
    return EXIT_DONE


def _draw_file(path: Path, out: Path, wanted: Wanted, *, replace: bool) -> int:
    """Write the picture of a stitch file; return the exit code."""
    if not wanted.is_open:
        raise UsageError(
            "--stage, --hooping and --design are for projects\n"
            f"help: leave them out, `{path}` is a stitch file by its name"
        )
    write = _by_name(_FILE_WRITERS, out)
    with stitch_reader() as reader:
        opened = open_file(path, reader)
    counted = count_file(opened, counting(CountOptions()))
    field = Inspected.of(opened, counted, bobbin="L").drawn_field
    write_file(out, write(picture_of(opened, counted, field), path.name), replace=replace)
    if text := faults_text(counted, plain(path)):
        tell(text)
    tell(plain(f"wrote `{out}`"))
    return EXIT_PROBLEMS if counted.sound.whole is False else EXIT_DONE


def _by_name(writers: Mapping[str, _Choice], out: Path) -> _Choice:
    write = writers.get(out.suffix.lower())
    if write is None:
        raise UsageError(
            f"--out cannot be `{out}`\nhelp: choose a name that ends in {', '.join(writers)}"
        )
    return write


def _svg(planned: Plan, wanted: Wanted) -> str:
    stage = find_stage(planned, wanted.stage, purpose="draw")
    if wanted.hooping is not None:
        return draw_hooping(planned, stage, find_hooping(stage, wanted.hooping))
    return draw_design(stage) if wanted.design else draw_stage(planned, stage)


def _png(svg: str, _title: str) -> bytes:
    from stitchpath.preview.print_files import picture_png  # noqa: PLC0415 - slow to import

    return picture_png(svg)


def _pdf(svgs: Sequence[str], title: str) -> bytes:
    from stitchpath.preview.print_files import pictures_pdf  # noqa: PLC0415 - slow to import

    try:
        return pictures_pdf(svgs, title=title)
    except ValueError as fault:
        raise StitchpathError(
            f"{fault}, and pictures are at true scale\n"
            "help: choose .svg or .png, or one --hooping"
        ) from fault


def _every_svg(planned: Plan) -> list[str]:
    return [
        svg
        for stage in planned.stages
        for svg in (
            draw_stage(planned, stage),
            *(draw_hooping(planned, stage, sewn) for sewn in stage.hoopings),
        )
    ]


def _html(planned: Plan, wanted: Wanted) -> bytes:
    if not wanted.is_open:
        raise UsageError(
            "the booklet shows every stage and hooping\n"
            "help: leave --stage, --hooping and --design out, or choose .svg, .png or .pdf"
        )
    return draw_booklet(planned, {}).encode(errors="replace")


_FileWriter: TypeAlias = Callable[[str, str], bytes]
_FILE_WRITERS: Final[Mapping[str, _FileWriter]] = {
    ".svg": lambda svg, _title: svg.encode(),
    ".png": _png,
    ".pdf": lambda svg, title: _pdf([svg], title),
}


def _picture(write: _FileWriter) -> "_Writer":
    return lambda planned, wanted: write(_svg(planned, wanted), planned.project.name)


def _all_or_one(planned: Plan, wanted: Wanted) -> bytes:
    """Return one page with the picture that is named, or all pictures where none is."""
    svgs = _every_svg(planned) if wanted.is_open else [_svg(planned, wanted)]
    return _pdf(svgs, planned.project.name)


_Writer: TypeAlias = Callable[[Plan, Wanted], bytes]
_WRITERS: Final[Mapping[str, _Writer]] = {
    ".svg": _picture(_FILE_WRITERS[".svg"]),
    ".png": _picture(_png),
    ".pdf": _all_or_one,
    ".html": _html,
}
