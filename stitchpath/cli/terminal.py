"""Standard output for data, standard error for all else; safe on any terminal.

Text of the maker's own, such as the name of a file, cannot steer the terminal: control
characters are shown as escapes. What a terminal's encoding lacks is escaped as well.
"""

import contextlib
import io
import json
import os
import sys
from pathlib import PurePath
from typing import Any

from stitchpath.errors import OutputError


class ReaderGoneError(Exception):
    """Whoever read standard output has closed it, as `head` does."""


def prepare_streams() -> None:
    """Let no character be a reason to fail, whatever the terminal's encoding."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def say(text: str) -> None:
    """Print data.

    Raises:
        ReaderGoneError: Nobody reads it any more.
        OutputError: It cannot be written, as on a full disk.
    """
    try:
        print(text, flush=True)
    except BrokenPipeError:
        drop(sys.stdout)
        raise ReaderGoneError from None
    except OSError as fault:
        drop(sys.stdout)
        raise OutputError(f"the output cannot be written: {fault.strerror}") from fault


def say_json(data: Any) -> None:  # noqa: ANN401 - whatever JSON can hold
    """Print data as JSON; in ASCII where the terminal's encoding is not UTF-8."""
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    is_utf8 = encoding.lower().replace("-", "") == "utf8"
    say(json.dumps(data, indent=2, ensure_ascii=not is_utf8, allow_nan=False))


def tell(text: str) -> None:
    """Print words for people; where they cannot be written, the exit code has to do."""
    try:
        print(text, file=sys.stderr, flush=True)
    except OSError:
        drop(sys.stderr)


def plain(text: object) -> str:
    r"""Return text with control characters, and marks that turn writing round, as escapes.

    Example:
        >>> print(plain("red \x1b[31m"), plain("a\nb"), plain("\u202egnp.exe"))
        red \x1b[31m a
        b \u202egnp.exe

    A path has no line ends of ours:

        >>> print(plain(PurePath("a\nb.dst")))
        a\nb.dst
    """
    from stitchpath.model.quantities import breaks_lines  # noqa: PLC0415 - slow to import

    own_end = None if isinstance(text, PurePath) else "\n"
    return "".join(
        character.encode("unicode_escape").decode("ascii")
        if character != own_end and breaks_lines(character)
        else character
        for character in str(text)
    )


def drop(stream: Any) -> None:  # noqa: ANN401 - a stream, or what stands in for one
    """Send the rest of a stream nowhere, so that closing it cannot fail again."""
    with contextlib.suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
