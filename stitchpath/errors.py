"""Problems with a place in the user's file, and the few exceptions that carry them.

    StitchpathError            what a maker can mend; never a traceback
      ProjectError             a project file with problems, all of them at once
      OutputError              a file or folder that cannot be written, and why
      FormatError              stitches that a stitch format cannot hold

A bug of ours stays a ValueError or an AssertionError.
"""

from dataclasses import dataclass
from typing import Final

EXIT_DONE: Final = 0
EXIT_PROBLEMS: Final = 1
EXIT_USAGE: Final = 2
EXIT_BUG: Final = 70


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A place in the text of a file: line and column from 1, and how many characters."""

    line: int
    column: int
    width: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One fault in a project file.

    Attributes:
        code: A stable short name, listed in docs/errors.md.
        message: One fact, lower case, no full stop.
        key: The key path, such as `pocket.seam.inset` or `quilt.quilting[1].spacing`.
        span: Where it stands, or None where the text does not tell.
        label: What to say beside the caret: the limits.
        notes: Further facts, one a line.
        help: What to do.
    """

    code: str
    message: str
    key: str = ""
    span: Span | None = None
    label: str = ""
    notes: tuple[str, ...] = ()
    help: str = ""


class StitchpathError(Exception):
    """Something a maker can mend; its text says what is wrong and what to do."""


class ProjectError(StitchpathError):
    """A project file with one or more problems."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        """Keep the problems; there is at least one."""
        if not problems:
            raise ValueError("a project error carries problems")
        super().__init__("; ".join(problem.message for problem in problems))
        self.problems = problems


class OutputError(StitchpathError):
    """A file or folder that cannot be written."""


class FormatError(StitchpathError):
    """Stitches that a stitch format cannot hold, or that did not come back as planned."""
