"""`check`: measure everything and say what was found."""

from pathlib import Path

from stitchpath.cli.cutting_list import show_shopping
from stitchpath.cli.files import plan_project
from stitchpath.cli.findings import findings_data, show_cautions, show_findings
from stitchpath.cli.hours import show_folding
from stitchpath.cli.terminal import say, say_json
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS
from stitchpath.model.plan import Plan


def check_project(path: Path, *, as_json: bool) -> int:
    """Print what the checks say of a project; return the exit code."""
    planned = plan_project(path)
    if as_json:
        say_json(findings_data(planned))
    else:
        lines = [show_findings(planned), *_more(planned), "", show_cautions(planned)]
        say("\n".join(lines))
    return EXIT_PROBLEMS if planned.has_errors else EXIT_DONE


def _more(planned: Plan) -> list[str]:
    """Return what to buy, and how to fold the quilt."""
    parts = {
        "to buy:": show_shopping(planned),
        "to fold it into its pocket:": show_folding(planned),
    }
    return [
        line
        for head, lines in parts.items()
        if lines
        for line in ("", head, *(f"  {line}" for line in lines))
    ]
