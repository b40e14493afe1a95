"""`count`: stitches, thread cuts, time, thread and bobbins."""

from dataclasses import asdict
from pathlib import Path
from typing import Any

import numpy as np

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.files import load_project, read_bytes
from stitchpath.cli.summary import show_summary, summary_data
from stitchpath.cli.tables import show_json, show_metres, show_table, show_time
from stitchpath.cli.usage import option_length
from stitchpath.errors import EXIT_DONE, FormatError, StitchpathError
from stitchpath.estimate import count_stitches
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.machine import decode
from stitchpath.model.plan import Figures
from stitchpath.model.project import Machine
from stitchpath.model.stitches import Op, Stitches
from stitchpath.pipeline import plan

MOST_FILE_BYTES = 64 * 2**20 + 1
"""No more of a stitch file is read; larger ones are refused."""
_HEADS = ("file", "stitches", "cuts", "jumps", "pauses", "time", "top thread", "bobbin")


def count_files(files: list[Path], *, speed: float, thickness: str, as_json: bool) -> int:
    """Print what projects and stitch files come to; return the exit code."""
    thickness_mm = option_length("--thickness", thickness)
    is_stitch_file = [path.suffix.lower().removeprefix(".") in FORMATS for path in files]
    counted = [
        (path, _count(path, speed, thickness_mm))
        for path, wanted in zip(files, is_stitch_file, strict=True)
        if wanted
    ]
    plans = [
        (path, plan(load_project(path)))
        for path, skipped in zip(files, is_stitch_file, strict=True)
        if not skipped
    ]
    if as_json:
        data: list[dict[str, Any]] = [
            {"file": str(path)} | summary_data(planned) for path, planned in plans
        ]
        data += [{"file": str(path), "totals": asdict(figures)} for path, figures in counted]
        print(show_json(data))
        return EXIT_DONE
    parts = [
        f"{planned.project.name} ({path})\n{show_summary(planned)}" for path, planned in plans
    ]
    if counted:
        parts.append(show_table(_HEADS, [_row(path, figures) for path, figures in counted]))
    print("\n\n".join(parts))
    return EXIT_DONE


def _count(path: Path, speed: float, thickness_mm: float) -> Figures:
    try:
        found = decode(read_bytes(path, most=MOST_FILE_BYTES), path.suffix.lower())
    except FormatError as fault:
        raise StitchpathError(f"`{path}`: {fault}") from fault
    stitches = Stitches(
        xy=found.xy_units.astype(np.float64) * GRID_MM,
        op=found.op,
        tie=np.zeros(len(found.op), dtype=bool),
    )
    cuts = int(np.count_nonzero(found.op == Op.CUT))
    return count_stitches(
        stitches, Machine(speed=speed), runs=cuts + 1, thickness_mm=thickness_mm
    )


def _row(path: Path, figures: Figures) -> tuple[str, ...]:
    return (
        str(path),
        f"{figures.stitches:,}",
        f"{figures.thread_cuts:,}",
        f"{figures.jumps:,}",
        f"{figures.pauses:,}",
        show_time(figures.seconds),
        show_metres(figures.top_thread_mm),
        show_metres(figures.bobbin_thread_mm),
    )
