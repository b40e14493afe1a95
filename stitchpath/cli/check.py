"""`check`: measure everything and say what was found."""

from pathlib import Path

from stitchpath.cli.files import ShownProblemsError, load_project
from stitchpath.cli.findings import show_findings
from stitchpath.cli.tables import show_json
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS, Problem
from stitchpath.pipeline import plan
from stitchpath.preview import plan_data


def check_project(path: Path, *, as_json: bool) -> int:
    """Print what the checks say of a project; return the exit code."""
    try:
        planned = plan(load_project(path))
    except ShownProblemsError as error:
        if as_json:
            print(show_json({"findings": [], "problems": _problems(error.problems)}))
        raise
    if as_json:
        print(show_json({"findings": plan_data(planned, {})["findings"], "problems": []}))
    else:
        print(show_findings(planned))
    return EXIT_PROBLEMS if planned.has_errors else EXIT_DONE


def _problems(problems: tuple[Problem, ...]) -> list[dict[str, object]]:
    return [
        {
            "code": problem.code,
            "text": problem.message,
            "key": problem.key,
            "line": problem.span and problem.span.line,
            "column": problem.span and problem.span.column,
            "help": problem.help,
        }
        for problem in problems
    ]
