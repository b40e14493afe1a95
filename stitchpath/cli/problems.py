"""Problems that end a command, as text for people and as data for programs."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from stitchpath.cli.terminal import say_json
from stitchpath.errors import Problem, StitchpathError


class ShownProblemsError(StitchpathError):
    """A project's problems, already worded for the terminal."""

    def __init__(self, text: str, problems: tuple[Problem, ...]) -> None:
        """Keep the text and the problems."""
        super().__init__(text)
        self.problems = problems


@contextmanager
def problems_as_json(*, wanted: bool) -> Iterator[None]:
    """Print what ends a command as JSON too, in the shape that `check --json` has."""
    try:
        yield
    except StitchpathError as error:
        if wanted:
            say_json({"findings": [], "problems": _data(error)})
        raise


def _data(error: StitchpathError) -> list[dict[str, Any]]:
    if isinstance(error, ShownProblemsError):
        return [_problem_data(problem) for problem in error.problems]
    text, _, rest = str(error).partition("\n")
    return [_problem_data(Problem(code="command", message=text, help=_without_label(rest)))]


def _problem_data(problem: Problem) -> dict[str, Any]:
    return {
        "code": problem.code,
        "text": problem.message,
        "key": problem.key,
        "line": problem.span and problem.span.line,
        "column": problem.span and problem.span.column,
        "help": problem.help,
    }


def _without_label(rest: str) -> str:
    return rest.replace("help: ", "")
