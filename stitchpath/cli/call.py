"""Calls the command that the words of a command line call."""

import typer

from stitchpath.cli.app import PROGRAM, app
from stitchpath.cli.usage import reworded
from stitchpath.errors import EXIT_DONE


def run(words: list[str]) -> int:
    """Run the command that the words of a command line call; return the exit code.

    Raises:
        UsageError: There is no such command or option, or it lacks something.
        StitchpathError: Whatever else a maker can mend.
    """
    try:
        code = app(words, prog_name=PROGRAM, standalone_mode=False)
    except typer.TyperException as refused:
        context = getattr(refused, "ctx", None)
        first = [word for word in words[:1] if not word.startswith("-")]
        command = context.command_path if context else " ".join([PROGRAM, *first])
        message = getattr(refused, "format_message", refused.__str__)()
        raise reworded(message, command=command, known=_known(context)) from refused
    return code if isinstance(code, int) else EXIT_DONE


def _known(context: typer.Context | None) -> list[str]:
    """Return the words that can stand where the wrong one does."""
    if context is None:
        return []
    options = [option for parameter in context.command.params for option in parameter.opts]
    return [*getattr(context.command, "commands", ()), *options, "--help"]
