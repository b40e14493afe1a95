"""`corner`: one reinforcing triangle, from options."""

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.files import format_of
from stitchpath.cli.findings import findings_data, show_cautions, show_findings
from stitchpath.cli.folder import write_file
from stitchpath.cli.make import refuse
from stitchpath.cli.options import (
    SANDWICHES,
    key_limits,
    option_field,
    option_length,
    option_number,
)
from stitchpath.cli.summary import show_summary, summary_data
from stitchpath.cli.terminal import plain, say, say_json, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE
from stitchpath.machine import stitch_file
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan
from stitchpath.model.quilt import PocketSeam
from stitchpath.pipeline import plan_corner
from stitchpath.preview import draw_hooping


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerOptions:
    """The options of the command, as typed."""

    side: str
    across: str
    passes: str
    stitch_length: str
    thickness: str
    hand: Literal["left", "right"]
    field: str
    bobbin_pull_up: bool


def make_corner(options: CornerOptions, out: Path, *, replace: bool, as_json: bool) -> int:
    """Write a triangle as a stitch file or picture; return the exit code."""
    if format_of(out) is None and out.suffix.lower() != ".svg":
        endings = ", ".join(f".{name}" for name in FORMATS)
        raise UsageError(
            f"--out cannot be `{out}`\nhelp: choose a name that ends in {endings} or .svg"
        )
    seam, thickness_mm = _seam(options), _thickness(options)
    machine = _machine(options, format_of(out))
    planned = plan_corner(seam, machine, hand=options.hand, thickness_mm=thickness_mm)
    if planned.has_errors:
        return refuse(planned, as_json=as_json)
    write_file(out, _bytes(planned, format_of(out)), replace=replace)
    if as_json:
        say_json(summary_data(planned) | findings_data(planned) | {"out": str(out)})
    else:
        say(show_summary(planned))
        tell(f"\n{show_findings(planned)}")
    tell(plain(f"\n{show_cautions(planned)}\n\nwrote `{out}`"))
    return EXIT_DONE


def _bytes(planned: Plan, format_name: str | None) -> bytes:
    (stage,) = planned.stages
    (sewn,) = stage.hoopings
    if format_name is None:
        return draw_hooping(planned, stage, sewn).encode()
    return stitch_file(
        sewn.stitches,
        sewn.hooping,
        format=FORMATS[format_name],
        name="corner",
        thread=stage.thread,
    )


def _seam(options: CornerOptions) -> PocketSeam:
    low, high = key_limits("pocket", "seam", "passes")
    return PocketSeam(
        corner_side=_length("--side", options.side, "pocket", "seam", "corner_side"),
        corner_across=_length("--across", options.across, "pocket", "seam", "corner_across"),
        passes=int(option_number("--passes", options.passes, low=low, high=high, whole=True)),
        stitch_length=_length(
            "--stitch-length", options.stitch_length, "pocket", "seam", "stitch_length"
        ),
    )


def _machine(options: CornerOptions, format_name: str | None) -> Machine:
    """Return the machine; a picture holds whatever is sewn."""
    return Machine(
        field=option_field(options.field),
        formats=(format_name or "svg",),
        bobbin_pull_up="seam" if options.bobbin_pull_up else "never",
    )


def _thickness(options: CornerOptions) -> float:
    low, high = key_limits("batting", "thickness")
    return option_length("--thickness", options.thickness, low=low, high=SANDWICHES * high)


def _length(option: str, text: str, *path: str | int) -> float:
    low, high = key_limits(*path)
    return option_length(option, text, low=low, high=high)
