"""`make`: the main job."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from stitchpath.cli.files import load_project
from stitchpath.cli.findings import show_cautions, show_findings
from stitchpath.cli.folder import write_folder
from stitchpath.cli.outputs import make_outputs
from stitchpath.cli.summary import show_summary, summary_data
from stitchpath.cli.tables import show_json
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS
from stitchpath.model.finding import Level
from stitchpath.pipeline import plan

SLOW_HOOPINGS = 20
"""From so many hoopings on a progress bar is shown."""


def make_project(path: Path, out: Path, *, as_json: bool) -> int:
    """Make a project's folder, whole or not at all; return the exit code."""
    planned = plan(load_project(path))
    if planned.has_errors:
        print(show_findings(planned), file=sys.stderr)
        print("nothing was written", file=sys.stderr)
        return EXIT_PROBLEMS
    hoopings = sum(len(stage.hoopings) for stage in planned.stages)
    with _progress(hoopings) as advance:
        outputs = make_outputs(planned, advance)
    write_folder(out, outputs)
    if as_json:
        print(show_json(summary_data(planned) | {"out": str(out), "files": sorted(outputs)}))
        return EXIT_DONE
    print(show_summary(planned))
    if any(finding.level is Level.WARNING for finding in planned.findings):
        print(f"\n{show_findings(planned)}", file=sys.stderr)
    print(f"\n{show_cautions()}\n\nwrote {len(outputs)} files to {out}", file=sys.stderr)
    return EXIT_DONE


@contextmanager
def _progress(total: int) -> Iterator[Callable[[], None]]:
    """Show a bar on a terminal while there is much to do."""
    if total < SLOW_HOOPINGS or not sys.stderr.isatty():
        yield lambda: None
        return
    from rich.console import Console  # noqa: PLC0415 - slow to import, and seldom needed
    from rich.progress import Progress  # noqa: PLC0415

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("hoopings", total=total)
        yield lambda: bar.advance(task)
