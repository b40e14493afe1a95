"""Commands called with something they cannot take, and how to say so."""

import re
from collections.abc import Iterable
from typing import Final

from stitchpath.errors import StitchpathError

_WORDINGS: Final = (
    (r"Missing (?:option|argument) '(?P<name>[^']+)'.*", "{name} is missing"),
    (r"No such command '(?P<word>.*?)'\..*", "there is no command `{word}`"),
    (r"No such option: (?P<word>\S+).*", "there is no option `{word}`"),
    (r"Option '(?P<name>\S+)' requires an argument\.", "{name} needs a value"),
    (r"Option '(?P<name>\S+)' does not take a value\.", "{name} takes no value"),
    (r"Got unexpected extra arguments?(?:\(s\))? \((?P<word>.*)\)", "`{word}` is too much"),
    (
        r"Invalid value for '(?P<name>[^']+)': (Value error, )?'(?P<word>.*)' is not one of .*",
        "{name} cannot be `{word}`",
    ),
)
"""The command library's messages, and ours for them; others stay as they are."""
_CHOICES: Final = re.compile(r"(?s)(?:is not one of|Choose from:)(.*)")


class UsageError(StitchpathError):
    """A command called with something it cannot take; its exit code is 2."""


def reworded(message: str, *, command: str, known: Iterable[str]) -> UsageError:
    """Return the command library's complaint in our words, with what to do.

    Args:
        message: What the library says.
        command: The command as typed, such as `stitchpath make`.
        known: Its options, or the commands there are.
    """
    from stitchpath.project.nearest import nearest  # noqa: PLC0415 - slow to import

    text, word = f"{message[:1].lower()}{message[1:].rstrip('.')}", ""
    for pattern, wording in _WORDINGS:
        if match := re.fullmatch(pattern, message, re.DOTALL):
            text, word = wording.format(**match.groupdict()), match.groupdict().get("word", "")
    choices = _CHOICES.search(message)
    words = re.findall(r"[\w-]+", choices[1]) if choices else []
    if words:
        listed = f"`{'`, `'.join(words[:-1])}` or `{words[-1]}`"
        return UsageError(f"{text}\nhelp: choose {listed}")
    close = nearest(word, known) if word else None
    hint = f"help: the nearest is `{close}`\n" if close else ""
    return UsageError(f"{text}\n{hint}help: see `{command} --help`")
