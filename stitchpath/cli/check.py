"""`check`: measure everything and say what was found."""

from pathlib import Path

from stitchpath.cli.files import load_project
from stitchpath.cli.findings import findings_data, show_cautions, show_findings
from stitchpath.cli.terminal import say, say_json
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS
from stitchpath.pipeline import plan


def check_project(path: Path, *, as_json: bool) -> int:
    """Print what the checks say of a project; return the exit code."""
    planned = plan(load_project(path))
    if as_json:
        say_json(findings_data(planned))
    else:
        say(f"{show_findings(planned)}\n\n{show_cautions(planned)}")
    return EXIT_PROBLEMS if planned.has_errors else EXIT_DONE
