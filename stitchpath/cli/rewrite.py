"""`rewrite`: a stitch file in another format, or divided to fit a smaller field."""

from dataclasses import dataclass
from pathlib import Path
from typing import Final

import numpy as np

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.files import format_of
from stitchpath.cli.findings import show_usual_cautions
from stitchpath.cli.folder import write_file, write_folder
from stitchpath.cli.options import option_field
from stitchpath.cli.order import SEWING_ORDER
from stitchpath.cli.outputs import make_outputs
from stitchpath.cli.reading import stitch_reader
from stitchpath.cli.shared_options import CountOptions
from stitchpath.cli.stitch_files import (
    Counting,
    OpenedFile,
    count_file,
    counting,
    faults_text,
    open_file,
)
from stitchpath.cli.summary import show_summary
from stitchpath.cli.terminal import plain, say, say_json, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, StitchpathError
from stitchpath.machine import stitch_file
from stitchpath.machine.rewrite import fit_to_format, losses
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan
from stitchpath.model.thread import ThreadPair
from stitchpath.pipeline import plan_stitches

_LARGEST_MM: Final = 9000.0
_DEFAULT: Final = "dst"
_LONGEST_NAME: Final = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class RewriteOptions:
    """The options of the command, as typed."""

    out: Path
    field: str | None
    format: str | None
    replace: bool
    count: CountOptions


def rewrite_file(path: Path, options: RewriteOptions, *, as_json: bool) -> int:
    """Write a stitch file again; return the exit code."""
    name = _format_name(options)
    field = None if options.field is None else option_field(options.field)
    by = counting(options.count)
    with stitch_reader() as reader:
        opened = open_file(path, reader)
    counted = count_file(opened, by)
    if counted.sound.whole is False:
        text = faults_text(counted, str(path)).removeprefix("error: ")
        raise StitchpathError(f"{text}\nnothing was written")
    lost = losses(opened.file.read, opened.stitches, FORMATS[name])
    if field is None:
        hoopings = _write_one(opened, name, options)
    else:
        planned = _divided(opened, name, field, by)
        hoopings = len(planned.stages[0].hoopings)
        write_folder(options.out, make_outputs(planned))
        if not as_json:
            say(show_summary(planned))
    if as_json:
        report = {"file": str(path), "format": name, "out": str(options.out)}
        say_json(report | {"hoopings": hoopings, "losses": list(lost)})
    for text in (faults_text(counted, plain(path)), *(f"warning: {text}" for text in lost)):
        if text:
            tell(text)
    tell(plain(f"\n{show_usual_cautions()}\n\nwrote `{options.out}`"))
    if field is not None:
        tell("distances of marks are from a rectangle 20 mm outside the stitches")
        tell(f"begin with `{plain(options.out / SEWING_ORDER)}`")
    return EXIT_DONE


def _format_name(options: RewriteOptions) -> str:
    """Return the format to write, by the option, or by the name of the file to write."""
    endings = ", ".join(f".{name}" for name in FORMATS)
    if options.field is None:
        name = format_of(options.out)
        if name is None or (options.format or name) != name:
            raise UsageError(
                f"--out cannot be `{options.out}`\nhelp: choose a name that ends in {endings};"
                " with --field, a folder and --format"
            )
        return name
    name = options.format or _DEFAULT
    if name not in FORMATS:
        raise UsageError(f"--format cannot be `{name}`\nhelp: choose from {', '.join(FORMATS)}")
    return name


def _write_one(opened: OpenedFile, name: str, options: RewriteOptions) -> int:
    """Write the whole file in another format, its stitches where they are."""
    width, height = (2 * abs(edge) for edge in opened.stitches.xy.max(axis=0).tolist())
    data = stitch_file(
        fit_to_format(opened.stitches, FORMATS[name]),
        Hooping(number=1, field=(width, height), centre=(0.0, 0.0)),
        format=FORMATS[name],
        name=opened.path.stem,
        thread=ThreadPair(),
    )
    write_file(options.out, data, replace=options.replace)
    return 1


def _divided(opened: OpenedFile, name: str, field: tuple[float, float], by: Counting) -> Plan:
    """Return the plan of a file's stitches, divided over hoopings."""
    machine = Machine(
        field=field, formats=(name,), speed=by.machine.speed, bobbin=by.machine.bobbin
    )
    planned = None
    if np.ptp(opened.stitches.needle_points, axis=0).max() <= _LARGEST_MM:
        planned = plan_stitches(
            fit_to_format(opened.stitches, FORMATS[name]),
            machine,
            name=plain(opened.path.stem)[:_LONGEST_NAME] or "stitch file",
            thickness_mm=by.thickness_mm,
        )
    if planned is None:
        size = f"{field[0]:g} x {field[1]:g} mm"
        raise StitchpathError(
            f"`{opened.path}` cannot be divided to fit a field of {size}\n"
            "a stitch would reach across two hoopings, or there would be too many of them\n"
            "help: choose a larger field"
        )
    return planned
