"""`count`: stitches, thread cuts, time, thread and bobbins."""

from pathlib import Path
from typing import Any, TypeAlias

from stitchpath.cli.files import plan_project
from stitchpath.cli.findings import show_findings
from stitchpath.cli.hours import find_evening, show_sessions, with_evenings
from stitchpath.cli.reading import stitch_reader
from stitchpath.cli.shared_options import CountOptions
from stitchpath.cli.stitch_files import (
    CountedFile,
    count_file,
    counting,
    faults_text,
    open_file,
)
from stitchpath.cli.summary import figures_data, show_summary, summary_data
from stitchpath.cli.tables import show_table
from stitchpath.cli.terminal import plain, say, say_json, tell
from stitchpath.cli.timed import Timed, find_timed, show_timed, timed_data
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS
from stitchpath.estimate import count_bobbins
from stitchpath.machine.content import format_by_name
from stitchpath.model.plan import Figures, Plan
from stitchpath.preview.estimate_data import estimate_data
from stitchpath.preview.words import duration, metres

_HEADS = (
    "file", "stitches", "cuts", "jumps", "pauses", "time", "top thread", "bobbin", "bobbins",
)  # fmt: skip

Counted: TypeAlias = tuple[Path, Plan | CountedFile]
"""A project with its plan, or a stitch file with what it comes to."""


def count_files(
    files: list[Path],
    options: CountOptions,
    *,
    timed: str | None,
    evening: str | None,
    as_json: bool,
) -> int:
    """Print what projects and stitch files come to, in their order; return the exit code."""
    by, hours = counting(options), find_evening(evening)
    with stitch_reader() as reader:
        counted: list[Counted] = [
            (path, _plan(path, hours))
            if format_by_name(path.suffix) is None
            else (path, count_file(open_file(path, reader), by))
            for path in files
        ]
    found_time = _find_timed(timed, counted)
    if hours is not None and not any(isinstance(found, Plan) for _, found in counted):
        raise UsageError("--evening is for projects\nhelp: name a project file")
    if as_json:
        more = timed_data(found_time) if found_time else {}
        say_json([_data(path, found) | more for path, found in counted])
    else:
        more_text = [show_timed(found_time)] if found_time else []
        say("\n\n".join([_text(counted, by.machine.bobbin), *more_text]))
    bad = [_tell_faults(found) for _, found in counted]
    return EXIT_PROBLEMS if any(bad) else EXIT_DONE


def _tell_faults(found: Plan | CountedFile) -> bool:
    """Say what is wrong with what was counted; return whether it must not be sewn."""
    if isinstance(found, Plan):
        if found.has_errors:
            said = show_findings(found, notes_too=False)
            tell(f"\n{found.project.name} cannot be made\n{said}")
        return found.has_errors
    if text := faults_text(found, plain(found.path)):
        tell(f"\n{text}")
    return found.sound.whole is False


def _find_timed(typed: str | None, counted: list[Counted]) -> Timed | None:
    if typed is None:
        return None
    files = [found for _, found in counted if isinstance(found, CountedFile)]
    if len(files) != 1 or len(counted) != 1:
        raise UsageError("--timed is for one stitch file\nhelp: name the file that was timed")
    return find_timed(typed, files[0].figures)


def _plan(path: Path, hours: float | None) -> Plan:
    if path.suffix.lower() != ".toml" and path.is_file():
        raise UsageError(
            f"`{path}` is neither a project nor a stitch file by its name\n"
            "help: a project ends in .toml; `stitchpath inspect` takes any stitch file"
        )
    planned = plan_project(path, compares_fields=True)
    return planned if hours is None else with_evenings(planned, hours)


def _text(counted: list[Counted], bobbin: str) -> str:
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
    files = [(path, found) for path, found in counted if isinstance(found, CountedFile)]
    rows = [_row(plain(path), found.figures, bobbin) for path, found in files]
    if len(rows) > 1:
        total = sum((found.figures for _, found in files), Figures())
        rows.append(_row("all", total, bobbin))
    return "\n\n".join([*parts, show_table(_HEADS, rows)] if rows else parts)


def _data(path: Path, found: Plan | CountedFile) -> dict[str, Any]:
    file = {"file": str(path)}
    if isinstance(found, Plan):
        return file | summary_data(found) | estimate_data(found)
    totals = figures_data(found.figures, hoopings=1, bobbins=found.bobbins)
    return file | {"name": path.stem, "stages": [], "totals": totals}


def _row(name: str, figures: Figures, bobbin: str) -> tuple[str, ...]:
    return (
        name,
        f"{figures.stitches:,}",
        f"{figures.thread_cuts:,}",
        f"{figures.jumps:,}",
        f"{figures.pauses:,}",
        duration(figures.seconds),
        metres(figures.top_thread_mm),
        metres(figures.bobbin_thread_mm),
        f"{count_bobbins(figures.bobbin_thread_mm, bobbin)} {bobbin}",
    )
