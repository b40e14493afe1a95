"""The commands. Each does its work in a module of its own, imported when it is called."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from stitchpath import __version__

app = typer.Typer(
    name="stitchpath",
    help="From a quilt's measurements to machine files, every stitch seen and counted first.",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


class Unit(StrEnum):
    """Units a starter project can be written in."""

    MM = "mm"
    CM = "cm"
    INCH = "in"


class Hand(StrEnum):
    """Which end of the pocket's mouth, as it lies under the needle."""

    LEFT = "left"
    RIGHT = "right"


class What(StrEnum):
    """What can be listed."""

    LAYOUTS = "layouts"
    FIELDS = "fields"
    BATTINGS = "battings"
    FORMATS = "formats"
    BOBBINS = "bobbins"
    PAPERS = "papers"


ProjectFile = Annotated[Path, typer.Argument(metavar="PROJECT", help="a project file (TOML)")]
AsJson = Annotated[bool, typer.Option("--json", help="print data instead of text")]
Replace = Annotated[bool, typer.Option("--replace", help="write over an existing file")]


def _show_version(wanted: bool) -> None:
    if wanted:
        print(f"stitchpath {__version__}")
        raise typer.Exit


@app.callback()
def stitchpath(
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=_show_version, is_eager=True, help="show the version"
        ),
    ] = False,
) -> None:
    """From a quilt's measurements to machine files, every stitch seen and counted first."""
    del version


@app.command()
def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="where to write it")],
    units: Annotated[Unit, typer.Option(help="what a bare number means")] = Unit.MM,
) -> None:
    """Write a commented starter project."""
    from stitchpath.cli.new import write_starter

    write_starter(file, units.value)


@app.command()
def check(project: ProjectFile, as_json: AsJson = False) -> None:
    """Measure everything and say what was found."""
    from stitchpath.cli.check import check_project

    raise typer.Exit(check_project(project, as_json=as_json))


@app.command()
def make(
    project: ProjectFile,
    out: Annotated[Path, typer.Option(metavar="DIR", help="the folder to make")],
    as_json: AsJson = False,
) -> None:
    """Make all stitch files and pictures, and the plan as data."""
    from stitchpath.cli.make import make_project

    raise typer.Exit(make_project(project, out, as_json=as_json))


@app.command()
def preview(
    project: ProjectFile,
    out: Annotated[Path, typer.Option(metavar="FILE", help="the picture to draw, .svg")],
    stage: Annotated[str, typer.Option(help="pocket, quilt or seam; else the largest")] = "",
    hooping: Annotated[int, typer.Option(min=0, help="one hooping; 0 for the whole stage")] = 0,
    replace: Replace = False,
) -> None:
    """Draw one picture of a project."""
    from stitchpath.cli.preview import draw_project

    draw_project(project, out, stage_name=stage, number=hooping, replace=replace)


@app.command()
def count(
    files: Annotated[
        list[Path], typer.Argument(metavar="PROJECT-OR-STITCH-FILE...", help="what to count")
    ],
    speed: Annotated[
        float, typer.Option(min=50, max=3000, help="for stitch files: stitches a minute")
    ] = 600,
    thickness: Annotated[
        str, typer.Option(help="for stitch files: of the sandwich under the stitch")
    ] = "3 mm",
    as_json: AsJson = False,
) -> None:
    """Count stitches, thread cuts, minutes, thread and bobbins."""
    from stitchpath.cli.count import count_files

    raise typer.Exit(count_files(files, speed=speed, thickness=thickness, as_json=as_json))


@app.command()
def corner(
    out: Annotated[
        Path, typer.Option(metavar="FILE", help="a stitch file or .svg, by its name")
    ],
    side: Annotated[str, typer.Option(help="the leg down the side")] = "7/8 in",
    across: Annotated[str, typer.Option(help="the leg along the mouth")] = "1/2 in",
    passes: Annotated[int, typer.Option(min=1, max=5, help="how often a leg is sewn")] = 3,
    stitch_length: Annotated[str, typer.Option(help="longest stitch")] = "2.5 mm",
    hand: Annotated[Hand, typer.Option(help="which end of the mouth")] = Hand.LEFT,
    field: Annotated[
        str, typer.Option(metavar="WxH", help="what the needle can reach, in mm")
    ] = "100x100",
    replace: Replace = False,
    as_json: AsJson = False,
) -> None:
    """Make just one reinforcing triangle, without a project."""
    from stitchpath.cli.corner import CornerOptions, make_corner

    options = CornerOptions(
        side=side,
        across=across,
        passes=passes,
        stitch_length=stitch_length,
        hand=hand.value,
        field=field,
    )
    raise typer.Exit(make_corner(options, out, replace=replace, as_json=as_json))


@app.command(name="list")
def list_(
    what: Annotated[What, typer.Argument(metavar="WHAT", help="what to list")],
    as_json: AsJson = False,
) -> None:
    """List what can be chosen: layouts, fields, battings, formats, bobbins or papers."""
    from stitchpath.cli.choices import list_choices

    list_choices(what.value, as_json=as_json)


@app.command()
def schema() -> None:
    """Print the JSON Schema of project files, for editors."""
    from stitchpath.cli.choices import print_schema

    print_schema()
