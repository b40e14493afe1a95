"""`refit`: one hooping's stitches moved to where its marks really are."""

from dataclasses import dataclass
from math import degrees
from pathlib import Path
from typing import Any, Final

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.files import format_of, plan_project
from stitchpath.cli.findings import show_cautions
from stitchpath.cli.folder import write_file
from stitchpath.cli.found_marks import BARE_NUMBERS, found_marks
from stitchpath.cli.make import refuse
from stitchpath.cli.outputs import numbered
from stitchpath.cli.pick import find_hooping, find_stage
from stitchpath.cli.refits import keep_refit, load_refits, refit_lines, refits_path, refitted
from stitchpath.cli.terminal import plain, say, say_json, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, OutputError, StitchpathError
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.hoopings.refit import (
    MOST_ALLOWED_STRETCH,
    MOST_RESIDUAL_MM,
    MOST_STRETCH,
    Fit,
    fit_hooping,
    make_refit,
    past_field,
    stretched,
)
from stitchpath.machine import stitch_file
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.model.refit import Refit
from stitchpath.model.stitches import Stitches

_SIDES: Final = ("left", "top", "right", "bottom")
_LARGE_ANGLE_DEG: Final = 10.0
"""A hoop that lies turned by more is turned on purpose, or its marks are mixed up."""
_OTHER_UNIT: Final = -0.8
"""Marks so much closer together were told in cm or inches, where mm are taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RefitOptions:
    """The options of the command, as typed."""

    stage: str
    hooping: str
    marks: tuple[str, ...]
    out: Path
    allow_stretch: bool
    replace: bool


def refit_project(path: Path, options: RefitOptions, *, as_json: bool) -> int:
    """Write one hooping's stitch file, moved to where its marks are; return the exit code.

    Raises:
        StitchpathError: The marks do not say where the hooping lies, or no file can mend it.
    """
    out = options.out
    format_name = format_of(out)
    if format_name is None:
        endings = ", ".join(f".{name}" for name in FORMATS)
        raise UsageError(f"--out cannot be `{out}`\nhelp: choose a name that ends in {endings}")
    bare = plan_project(path)
    if bare.has_errors:
        return refuse(bare, as_json=as_json)
    others = [one for one in load_refits(path) if not _is_again(one, options)]
    stage = find_stage(refitted(bare, others), options.stage, purpose="refit")
    sewn = find_hooping(stage, options.hooping)
    found = found_marks(options.marks, sewn.hooping)
    fit = fit_hooping(sewn.hooping, found, may_stretch=options.allow_stretch)
    _check_fit(fit, allow_stretch=options.allow_stretch)
    stitches = stretched(sewn.stitches, sewn.hooping, fit.motion.scale)
    _check_field(stitches, fit)
    data = stitch_file(
        stitches,
        fit.hooping,
        format=FORMATS[format_name],
        name=f"{stage.name}{numbered(stage, sewn)}",
        thread=stage.thread,
    )
    write_file(out, data, replace=options.replace)
    kept = make_refit(stage.name, sewn.hooping, fit, file=out.name)
    _keep(path, kept, out)
    if as_json:
        say_json(_data(kept, fit, out))
    else:
        say(_text(stage, sewn, fit))
    _tell_rest(bare, fit, refit_lines(bare, others))
    tell(plain(f"\nwrote `{out}`, and noted it in `{refits_path(path)}`"))
    return EXIT_DONE


def _keep(path: Path, refit: Refit, out: Path) -> None:
    try:
        keep_refit(path, refit)
    except OutputError as fault:
        raise OutputError(
            f"{fault}\n`{out}` is written and good, but later hoopings will not know of it"
        ) from fault


def _is_again(refit: Refit, options: RefitOptions) -> bool:
    """Whether an earlier refit is of the hooping that is refitted now, and so forgotten."""
    return (refit.stage, f"{refit.number}") == (options.stage, options.hooping.strip())


def _check_fit(fit: Fit, *, allow_stretch: bool) -> None:
    most = MOST_ALLOWED_STRETCH if allow_stretch else MOST_STRETCH
    names = ", ".join(fit.residuals)
    if most < abs(fit.stretch):
        way = "further apart" if fit.stretch > 0 else "closer together"
        advice = "check which mark is which, and hoop the piece again"
        if fit.stretch < _OTHER_UNIT:
            advice = f"check the places: {BARE_NUMBERS}"
        if abs(fit.stretch) <= MOST_ALLOWED_STRETCH:
            advice = (
                "hoop the piece again, flat and not pulled; or stretch the stitches like the "
                "cloth with --allow-stretch"
            )
        raise StitchpathError(
            f"marks {names} lie {100 * abs(fit.stretch):.1f} % {way} than planned\n"
            f"the limit is {100 * most:g} %\nhelp: {advice}\nnothing was written"
        )
    worst = max(fit.residuals, key=lambda name: fit.residuals[name])
    if fit.residuals[worst] > MOST_RESIDUAL_MM:
        raise StitchpathError(
            f"mark {worst} is {fit.residuals[worst]:.1f} mm from where marks {names} put it\n"
            f"the limit is {MOST_RESIDUAL_MM:g} mm\n"
            "help: find it again, leave it out where three or more are given, or hoop the "
            "piece again\nnothing was written"
        )


def _check_field(stitches: Stitches, fit: Fit) -> None:
    over = dict(zip(_SIDES, past_field(stitches, fit.hooping).tolist(), strict=True))
    past = {side: far for side, far in over.items() if far > GRID_MM / 100}
    if past:
        facts = " and ".join(f"{far:.1f} mm past its {side} edge" for side, far in past.items())
        raise StitchpathError(
            f"the moved stitches leave the field: {facts}\n"
            "help: hoop the piece again so that the field lies so much further that way, as it "
            "lies in the hoop; in the next project, keep some `hoopings.room` clear\n"
            "nothing was written"
        )


def _text(stage: Stage, sewn: SewnHooping, fit: Fit) -> str:
    x, y = fit.motion.shift
    turned = degrees(fit.motion.angle_rad)
    across = f"{abs(x):.2f} mm {'right' if x >= 0 else 'left'}"
    along = f"{abs(y):.2f} mm {'down' if y >= 0 else 'up'}"
    clock = "clockwise" if turned >= 0 else "counter-clockwise"
    names = ", ".join(fit.residuals)
    used = "the stitches are stretched alike" if fit.motion.scale != 1 else "left as it is"
    return "\n".join(
        [
            f"hooping {sewn.hooping.number} of the stage {stage.name}, by its marks {names}",
            f"shift     {across}, {along}, as it lies in the hoop",
            f"angle     {abs(turned):.2f} degrees {clock}",
            f"residual  {fit.residual_mm:.2f} mm at the marks, {_worst(fit)}",
            f"stretch   {100 * fit.stretch:+.2f} %, {used}",
        ]
    )


def _worst(fit: Fit) -> str:
    name = max(fit.residuals, key=lambda one: fit.residuals[one])
    return f"at the most {fit.residuals[name]:.2f} mm at {name}"


def _data(refit: Refit, fit: Fit, out: Path) -> dict[str, Any]:
    return {
        "stage": refit.stage,
        "hooping": refit.number,
        "out": str(out),
        "shift_mm": list(fit.motion.shift),
        "angle_deg": degrees(fit.motion.angle_rad),
        "residual_mm": fit.residual_mm,
        "residuals_mm": dict(fit.residuals),
        "stretch": fit.stretch,
        "scale": fit.motion.scale,
        "centre": list(refit.centre),
        "turn": refit.turn_deg,
    }


def _tell_rest(planned: Plan, fit: Fit, lines: list[str]) -> None:
    if abs(degrees(fit.motion.angle_rad)) > _LARGE_ANGLE_DEG:
        lines = [
            "caution: the hoop lies turned a long way: make sure that no marks are mixed up",
            *lines,
        ]
    tell("\n".join([*lines, "", show_cautions(planned)]))
