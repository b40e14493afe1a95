"""`count`: stitches, thread cuts, time, thread and bobbins."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeAlias

import numpy as np

from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.files import format_of, load_project, read_bytes
from stitchpath.cli.findings import show_findings
from stitchpath.cli.hours import find_evening, show_sessions, with_evenings
from stitchpath.cli.options import SANDWICHES, key_limits, option_length, option_number
from stitchpath.cli.summary import figures_data, show_summary, summary_data
from stitchpath.cli.tables import show_metres, show_table, show_time
from stitchpath.cli.terminal import plain, say, say_json, tell
from stitchpath.cli.timed import Timed, find_timed, show_timed, timed_data
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS, FormatError, StitchpathError
from stitchpath.estimate import count_bobbins, count_stitches
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.machine import decode
from stitchpath.machine.codecs import CODECS
from stitchpath.model.plan import Figures, Plan
from stitchpath.model.project import Machine
from stitchpath.model.stitches import Op, Stitches
from stitchpath.pipeline import plan
from stitchpath.preview import estimate_data

MOST_FILE_BYTES = 64 * 2**20 + 1
"""No more of a stitch file is read; larger ones are refused."""
_HEADS = (
    "file", "stitches", "cuts", "jumps", "pauses", "time", "top thread", "bobbin", "bobbins",
)  # fmt: skip

Counted: TypeAlias = tuple[Path, Plan | Figures]
"""A project with its plan, or a stitch file with its figures."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CountOptions:
    """What a stitch file does not say, as typed."""

    speed: str
    thickness: str
    bobbin: str
    timed: str | None = None
    evening: str | None = None


def count_files(files: list[Path], options: CountOptions, *, as_json: bool) -> int:
    """Print what projects and stitch files come to, in their order; return the exit code."""
    machine, thickness_mm = _machine(options), _thickness(options)
    hours = find_evening(options.evening)
    counted: list[Counted] = [
        (path, _count(path, machine, thickness_mm) if format_of(path) else _plan(path, hours))
        for path in files
    ]
    timed = _find_timed(options, counted)
    if hours is not None and not any(isinstance(found, Plan) for _, found in counted):
        raise UsageError("--evening is for projects\nhelp: name a project file")
    if as_json:
        more = timed_data(timed) if timed else {}
        say_json([_data(path, found, machine) | more for path, found in counted])
    else:
        more_text = [show_timed(timed)] if timed else []
        say("\n\n".join([_text(counted, machine), *more_text]))
    faulty = [found for _, found in counted if isinstance(found, Plan) and found.has_errors]
    for planned in faulty:
        tell(f"\n{planned.project.name} cannot be made\n{show_findings(planned)}")
    return EXIT_PROBLEMS if faulty else EXIT_DONE


def _find_timed(options: CountOptions, counted: list[Counted]) -> Timed | None:
    if options.timed is None:
        return None
    found = [figures for _, figures in counted if isinstance(figures, Figures)]
    if len(found) != 1 or len(counted) != 1:
        raise UsageError("--timed is for one stitch file\nhelp: name the file that was timed")
    return find_timed(options.timed, found[0])


def _plan(path: Path, hours: float | None) -> Plan:
    if path.suffix.lower() != ".toml" and path.is_file():
        endings = ", ".join(f".{name}" for name in FORMATS)
        raise UsageError(
            f"`{path}` is neither a project nor a stitch file by its name\n"
            f"help: a project ends in .toml, a stitch file in {endings}"
        )
    planned = plan(load_project(path))
    return planned if hours is None else with_evenings(planned, hours)


def _count(path: Path, machine: Machine, thickness_mm: float) -> Figures:
    data = read_bytes(path, most=MOST_FILE_BYTES)
    _check_name(path, data)
    try:
        found = decode(data, path.suffix)
    except FormatError as fault:
        raise StitchpathError(f"`{path}`: {fault}\n{_HINT}") from fault
    stitches = Stitches(
        xy=found.xy_units.astype(np.float64) * GRID_MM,
        op=found.op,
        tie=np.zeros(len(found.op), dtype=bool),
    )
    if not len(stitches.needle_points):
        raise StitchpathError(f"`{path}` holds no stitches\n{_HINT}")
    cuts = int(np.count_nonzero(found.op == Op.CUT))
    return count_stitches(stitches, machine, runs=cuts + 1, thickness_mm=thickness_mm)


def _check_name(path: Path, data: bytes) -> None:
    """Refuse a file that begins as one of another format does; some formats would read it."""
    for name, codec in CODECS.items():
        if codec.start and data.startswith(codec.start) and name != format_of(path):
            raise StitchpathError(
                f"`{path}` is a {name} file by how it begins\nhelp: give it a name in .{name}"
            )


_HINT = "help: it may be cut short, or of another format than its name says"


def _machine(options: CountOptions) -> Machine:
    low, high = key_limits("machine", "speed")
    if options.bobbin not in BOBBINS:
        raise UsageError(
            f"--bobbin cannot be `{options.bobbin}`\nhelp: choose from {', '.join(BOBBINS)}"
        )
    return Machine(
        speed=option_number("--speed", options.speed, low=low, high=high),
        bobbin=options.bobbin,
    )


def _thickness(options: CountOptions) -> float:
    low, high = key_limits("batting", "thickness")
    return option_length("--thickness", options.thickness, low=low, high=SANDWICHES * high)


def _text(counted: list[Counted], machine: Machine) -> str:
    parts = [
        "\n".join(
            [
                f"{found.project.name} ({plain(path)})",
                show_summary(found),
                *show_sessions(found),
            ]
        )
        for path, found in counted
        if isinstance(found, Plan)
    ]
    stitch_files = [(path, found) for path, found in counted if isinstance(found, Figures)]
    rows = [_row(plain(path), figures, machine) for path, figures in stitch_files]
    if len(rows) > 1:
        total = sum((figures for _, figures in stitch_files), Figures())
        rows.append(_row("all", total, machine))
    return "\n\n".join([*parts, show_table(_HEADS, rows)] if rows else parts)


def _data(path: Path, found: Plan | Figures, machine: Machine) -> dict[str, Any]:
    file = {"file": str(path)}
    if isinstance(found, Plan):
        return file | summary_data(found) | estimate_data(found)
    bobbins = count_bobbins(found.bobbin_thread_mm, machine.bobbin)
    totals = figures_data(found, hoopings=1, bobbins=bobbins)
    return file | {"name": path.stem, "stages": [], "totals": totals}


def _row(name: str, figures: Figures, machine: Machine) -> tuple[str, ...]:
    return (
        name,
        f"{figures.stitches:,}",
        f"{figures.thread_cuts:,}",
        f"{figures.jumps:,}",
        f"{figures.pauses:,}",
        show_time(figures.seconds),
        show_metres(figures.top_thread_mm),
        show_metres(figures.bobbin_thread_mm),
        f"{count_bobbins(figures.bobbin_thread_mm, machine.bobbin)} {machine.bobbin}",
    )
