"""The commands. Each does its work in a module of its own, imported when it is called."""

from pathlib import Path
from typing import Annotated

import typer

from stitchpath import __version__
from stitchpath.cli.problems import problems_as_json
from stitchpath.cli.shared_options import (
    AsJson,
    CountOptions,
    Hand,
    ProjectFile,
    Replace,
    StageName,
    Unit,
    What,
    with_count_options,
)
from stitchpath.cli.terminal import say, tell
from stitchpath.errors import EXIT_USAGE

PROGRAM = "stitchpath"

app = typer.Typer(
    name=PROGRAM,
    help="From a quilt's measurements to machine files, every stitch seen and counted first.",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def _show_version(wanted: bool) -> None:
    if wanted:
        say(f"{PROGRAM} {__version__}")
        raise typer.Exit


@app.callback(invoke_without_command=True)
def stitchpath(
    context: typer.Context,
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_show_version, is_eager=True, help="show the version"
        ),
    ] = False,
) -> None:
    """From a quilt's measurements to machine files, every stitch seen and counted first."""
    del version
    if context.invoked_subcommand is None:
        tell(context.get_help())
        raise typer.Exit(EXIT_USAGE)


@app.command()
def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="where to write it")],
    units: Annotated[Unit, typer.Option(help="what a bare number means")] = Unit.MM,
) -> int:
    """Write a commented starter project; never over an existing file."""
    from stitchpath.cli.new import write_starter

    return write_starter(file, units.value)


@app.command()
def check(project: ProjectFile, as_json: AsJson = False) -> int:
    """Measure everything and say what was found."""
    from stitchpath.cli.check import check_project

    with problems_as_json(wanted=as_json):
        return check_project(project, as_json=as_json)


@app.command()
def make(
    project: ProjectFile,
    out: Annotated[Path, typer.Option(metavar="DIR", help="the folder to make")],
    as_json: AsJson = False,
) -> int:
    """Make all stitch files and pictures, and the plan as data."""
    from stitchpath.cli.make import make_project

    with problems_as_json(wanted=as_json):
        return make_project(project, out, as_json=as_json)


@app.command()
def preview(
    project: Annotated[
        Path,
        typer.Argument(
            metavar="PROJECT-OR-STITCH-FILE", help="known by its name", readable=False
        ),
    ],
    out: Annotated[
        Path, typer.Option(metavar="FILE", help="by its name: .svg, .png, .pdf or .html")
    ],
    stage: Annotated[
        StageName | None, typer.Option(help="which stage; else the one of most stitches")
    ] = None,
    hooping: Annotated[
        str | None, typer.Option(metavar="N", help="one hooping, from 1; else the whole stage")
    ] = None,
    design: Annotated[
        bool, typer.Option("--design", help="the designed lines alone, as the quilt will look")
    ] = False,
    replace: Replace = False,
) -> int:
    """Draw a project, its booklet (.html) or a stitch file."""
    from stitchpath.cli.preview import Wanted, draw_project

    wanted = Wanted(stage=stage.value if stage else None, hooping=hooping, design=design)
    return draw_project(project, out, wanted, replace=replace)


@app.command()
@with_count_options
def count(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="PROJECT-OR-STITCH-FILE...", help="known by their names", readable=False
        ),
    ],
    count: CountOptions,
    timed: Annotated[
        str | None,
        typer.Option(
            metavar="TIME",
            help="of one stitch file at the machine, such as 12:30; finds the speed factor",
        ),
    ] = None,
    evening: Annotated[
        str | None,
        typer.Option(
            metavar="TIME", help="for projects: what fits in an evening, such as `2 h`"
        ),
    ] = None,
    as_json: AsJson = False,
) -> int:
    """Count stitches, thread cuts, minutes, thread and bobbins."""
    from stitchpath.cli.count import count_files

    with problems_as_json(wanted=as_json):
        return count_files(files, count, timed=timed, evening=evening, as_json=as_json)


@app.command()
@with_count_options
def inspect(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="STITCH-FILE-OR-FOLDER...",
            help="of any kind; all in a folder, and below it",
            readable=False,
        ),
    ],
    *,
    field: Annotated[
        str | None,
        typer.Option(metavar="WxH", help="does it fit what the needle can reach, in mm"),
    ] = None,
    out: Annotated[
        Path | None, typer.Option(metavar="FILE", help="draw one stitch file, .svg")
    ] = None,
    replace: Replace = False,
    count: CountOptions,
    as_json: AsJson = False,
) -> int:
    """Say what is in any stitch file, and whether it fits a field."""
    from stitchpath.cli.inspect import InspectOptions, inspect_files

    options = InspectOptions(count=count, field=field, out=out, replace=replace)
    with problems_as_json(wanted=as_json):
        return inspect_files(files, options, as_json=as_json)


@app.command()
@with_count_options
def rewrite(
    file: Annotated[
        Path, typer.Argument(metavar="STITCH-FILE", help="of any kind", readable=False)
    ],
    *,
    out: Annotated[
        Path, typer.Option(metavar="PATH", help="a stitch file; with --field, a folder")
    ],
    field: Annotated[
        str | None,
        typer.Option(metavar="WxH", help="divide it to fit what the needle can reach, in mm"),
    ] = None,
    format_: Annotated[
        str | None,
        typer.Option("--format", metavar="NAME", help="with --field: see `list formats`"),
    ] = None,
    replace: Replace = False,
    count: CountOptions,
    as_json: AsJson = False,
) -> int:
    """Write a stitch file in another format, or divided over hoopings."""
    from stitchpath.cli.rewrite import RewriteOptions, rewrite_file

    options = RewriteOptions(out=out, field=field, format=format_, replace=replace, count=count)
    with problems_as_json(wanted=as_json):
        return rewrite_file(file, options, as_json=as_json)


@app.command()
def corner(
    out: Annotated[
        Path, typer.Option(metavar="FILE", help="a stitch file or .svg, by its name")
    ],
    side: Annotated[
        str, typer.Option(metavar="LENGTH", help="the leg down the side, 3 to 100 mm")
    ] = "7/8 in",
    across: Annotated[
        str, typer.Option(metavar="LENGTH", help="the leg along the mouth, 3 to 100 mm")
    ] = "1/2 in",
    passes: Annotated[
        str, typer.Option(metavar="N", help="how often a leg is sewn at the most, 1 to 5")
    ] = "3",
    stitch_length: Annotated[
        str, typer.Option(metavar="LENGTH", help="chosen stitch length, 0.5 to 12 mm")
    ] = "2.5 mm",
    thickness: Annotated[
        str,
        typer.Option(metavar="LENGTH", help="of all that is sewn through: quilt and pocket"),
    ] = "6 mm",
    hand: Annotated[Hand, typer.Option(help="which end of the mouth")] = Hand.LEFT,
    field: Annotated[
        str, typer.Option(metavar="WxH", help="what the needle can reach, in mm")
    ] = "100x100",
    bobbin_pull_up: Annotated[
        bool, typer.Option(help="one stitch and a pause first, to draw the bobbin thread up")
    ] = True,
    replace: Replace = False,
    as_json: AsJson = False,
) -> int:
    """Make just one reinforcing triangle, without a project."""
    from stitchpath.cli.corner import CornerOptions, make_corner

    options = CornerOptions(
        side=side,
        across=across,
        passes=passes,
        stitch_length=stitch_length,
        thickness=thickness,
        hand=hand.value,
        field=field,
        bobbin_pull_up=bobbin_pull_up,
    )
    with problems_as_json(wanted=as_json):
        return make_corner(options, out, replace=replace, as_json=as_json)


@app.command()
def refit(
    project: ProjectFile,
    stage: Annotated[StageName, typer.Option(help="which stage")],
    hooping: Annotated[str, typer.Option(metavar="N", help="which hooping, from 1")],
    mark: Annotated[
        list[str],
        typer.Option(metavar="NAME=X,Y", help="where a mark is in the field; two or more"),
    ],
    out: Annotated[Path, typer.Option(metavar="FILE", help="a stitch file, by its name")],
    allow_stretch: Annotated[
        bool, typer.Option("--allow-stretch", help="stretch the stitches as the marks are")
    ] = False,
    replace: Replace = False,
    as_json: AsJson = False,
) -> int:
    """Move one hooping's stitches to where its marks really are.

    X and Y are the needle's position on the mark, from the field's centre to the right and
    down. Without a unit they are mm, whatever the project's unit, as machines show them.
    """
    from stitchpath.cli.refit import RefitOptions, refit_project

    options = RefitOptions(
        stage=stage.value,
        hooping=hooping,
        marks=tuple(mark),
        out=out,
        allow_stretch=allow_stretch,
        replace=replace,
    )
    with problems_as_json(wanted=as_json):
        return refit_project(project, options, as_json=as_json)


@app.command(name="list")
def list_(
    what: Annotated[What, typer.Argument(metavar="WHAT", help="what to list")],
    as_json: AsJson = False,
) -> int:
    """List what can be chosen, such as layouts or fields."""
    from stitchpath.cli.choices import list_choices

    return list_choices(what.value, as_json=as_json)


@app.command()
def schema() -> int:
    """Print the JSON Schema of project files, for editors."""
    from stitchpath.cli.choices import print_schema

    return print_schema()
