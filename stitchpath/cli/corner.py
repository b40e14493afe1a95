"""`corner`: one reinforcing triangle, from options."""

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from pydantic import ValidationError

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.findings import show_cautions, show_findings
from stitchpath.cli.folder import write_file
from stitchpath.cli.summary import show_summary, summary_data
from stitchpath.cli.tables import show_json
from stitchpath.cli.usage import UsageError, option_length
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS
from stitchpath.machine import stitch_file
from stitchpath.model.plan import Plan
from stitchpath.model.project import Machine, PocketSeam
from stitchpath.pipeline import plan_corner
from stitchpath.preview import draw_hooping


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerOptions:
    """The options of the command, as typed."""

    side: str
    across: str
    passes: int
    stitch_length: str
    hand: Literal["left", "right"]
    field: str


def make_corner(options: CornerOptions, out: Path, *, replace: bool, as_json: bool) -> int:
    """Write a triangle as a stitch file or picture; return the exit code."""
    suffix = out.suffix.lower().removeprefix(".")
    if suffix not in {"svg", *FORMATS}:
        raise UsageError(f"`{out.name}` should end in .{', .'.join(FORMATS)} or .svg")
    seam, machine = _seam(options), _machine(options)
    planned = plan_corner(seam, machine, hand=options.hand)
    if planned.has_errors:
        print(show_findings(planned), file=sys.stderr)
        print("nothing was written", file=sys.stderr)
        return EXIT_PROBLEMS
    write_file(out, _bytes(planned, suffix), replace=replace)
    if as_json:
        print(show_json(summary_data(planned) | {"out": str(out)}))
    else:
        print(show_summary(planned))
    print(f"\n{show_cautions()}\n\nwrote {out}", file=sys.stderr)
    return EXIT_DONE


def _bytes(planned: Plan, suffix: str) -> bytes:
    (stage,) = planned.stages
    (sewn,) = stage.hoopings
    if suffix == "svg":
        return draw_hooping(planned, stage, sewn).encode()
    return stitch_file(
        sewn.stitches, sewn.hooping, format=FORMATS[suffix], name="corner", thread=stage.thread
    )


def _seam(options: CornerOptions) -> PocketSeam:
    try:
        return PocketSeam(
            corner_side=option_length("--side", options.side),
            corner_across=option_length("--across", options.across),
            passes=options.passes,
            stitch_length=option_length("--stitch-length", options.stitch_length),
        )
    except ValidationError as error:
        raise UsageError(_limits(error)) from error


def _machine(options: CornerOptions) -> Machine:
    sides = options.field.lower().removesuffix("mm").split("x")
    if len(sides) != 2:  # noqa: PLR2004 - a field has a width and a height
        raise UsageError(f"--field `{options.field}`: a field looks like 100x100")
    width, height = (option_length("--field", side.strip()) for side in sides)
    try:
        return Machine(field=(width, height))
    except ValidationError as error:
        raise UsageError(_limits(error)) from error


def _limits(error: ValidationError) -> str:
    """Say which option is out of its limits, and what they are."""
    fault = error.errors(include_url=False)[0]
    option = str(fault["loc"][0]).removeprefix("corner_").replace("_", "-")
    limits = fault.get("ctx", {})
    bounds = [f"at least {limits['ge']:g} mm"] if "ge" in limits else []
    bounds += [f"at most {limits['le']:g} mm"] if "le" in limits else []
    return f"--{option}: {fault['input']:g} mm must be {' and '.join(bounds)}"
