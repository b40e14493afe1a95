"""TOML text to plain data, or the one place where it stops being TOML."""

import re
import tomllib
from typing import Any, Final

from stitchpath.errors import Problem, ProjectError, Span
from stitchpath.project.tokens import deepest_key

LARGEST: Final = 1_000_000
"""Characters or bytes of a project file: three hundred times a long one."""
_MOST_PARTS: Final = 16
"""Parts of a dotted key. Ours have five; reading one takes the square of its parts."""

_PLACE: Final = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_QUOTES: Final = (
    'text, fractions and lengths with a unit stand in quotes, such as `width = "2 1/2 in"`;'
    " an inch mark stands in single quotes: `'1/4\"'`"
)
_SAID: Final[tuple[tuple[str, str, str], ...]] = (
    ("Expected newline or end of document", "there is more after the value", _QUOTES),
    ("Invalid value", "there is no value here", _QUOTES),
    ("Expected '=' after a key", "a key is followed by `=` and its value", ""),
    ("Invalid initial character for a key part", "a key or its value is missing here", ""),
    ("Invalid statement", "a line starts with a key, a `[table]` or a `#`", ""),
    ("Cannot overwrite a value", "this key has a value already", "keep one of the two"),
    ("Duplicate inline table key", "this key has a value already", "keep one of the two"),
    (
        "Cannot declare",
        "this table is opened twice",
        "put its keys together, or write `[[...]]`, with two brackets, for a list of tables",
    ),
    ("Cannot mutate", "this table is closed already", "put its keys together in one place"),
    ("Cannot redefine", "this table is closed already", "put its keys together in one place"),
    ("Expected ']", "a table's header ends with `]`, a list of tables' with `]]`", ""),
    ("Unclosed array", "this list has no closing `]`", "items stand between commas"),
    ("Unclosed inline table", "this table has no closing `}`", ""),
    ("Unterminated string", "this text has no closing quote", ""),
    ('Expected \'"""\'', "this text has no closing quotes", ""),
    ("Expected \"'", "this text has no closing quote", ""),
    ("Unescaped", "a backslash stands in double quotes", "put the text in single quotes"),
    ("Illegal character '\\n'", "this text has no closing quote on its line", ""),
    ("Illegal character", "there is a control character here", "take it out"),
    ("Found invalid character '\\n'", "this text has no closing quote on its line", ""),
    ("Found invalid character", "there is a control character here", "take it out"),
    ("Invalid hex value", "`\\u` is followed by four hexadecimal digits", ""),
    ("Escaped character", "this escape is not a character", ""),
    ("Invalid date or datetime", "there is no such date", ""),
)
"""What `tomllib` says (by how it begins), what we say, and what helps."""


def plain_text(text: str) -> str:
    """Return a text without a byte order mark, its lines ending in one newline."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n")


def parse_toml(text: str) -> dict[str, Any]:
    """Return the data of a TOML text.

    Args:
        text: As `plain_text` leaves it.

    Raises:
        ProjectError: It is not TOML, too large, or nested too deep; one problem, with its place
            where there is one.
    """
    if len(text) > LARGEST:
        raise too_big(len(text), "characters")
    parts, start = deepest_key(text)
    if parts > _MOST_PARTS:
        message = f"a key has {parts} parts between dots"
        label = f"must have at most {_MOST_PARTS}"
        raise _not_toml(message, _span_at(text, start), label=label)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise _put_in_words(str(fault), text) from fault
    except RecursionError as fault:
        raise _not_toml("lists or tables are nested too deep to be read", None) from fault
    except ValueError as fault:  # a whole number of more than 4300 digits
        raise _not_toml("a number has too many digits to be read", None) from fault


def too_big(size: int, things: str) -> ProjectError:
    """Return the error for a file over the size limit."""
    return ProjectError(
        (
            Problem(
                code="too-big",
                message=f"the project file has {size:,} {things}",
                label=f"must have at most {LARGEST:,} (1 MB)",
                help="check that this is the project file",
            ),
        )
    )


def _put_in_words(said: str, text: str) -> ProjectError:
    where = _PLACE.search(said)
    fact, help_ = "this is not TOML", "see https://toml.io for how a TOML file is written"
    for beginning, message, helpful in _SAID:
        if said.startswith(beginning):
            fact, help_ = message, helpful or help_
            break
    if where is None:
        return _not_toml(fact, None, help_=help_)
    if where[1] is None:
        return _not_toml(fact, _last_place(text), label="the file ends here", help_=help_)
    return _not_toml(fact, Span(line=int(where[1]), column=int(where[2])), help_=help_)


def _not_toml(
    message: str, span: Span | None, *, label: str = "here", help_: str = ""
) -> ProjectError:
    return ProjectError(
        (Problem(code="toml", message=message, span=span, label=label, help=help_),)
    )


def _last_place(text: str) -> Span:
    return _span_at(text, len(text.rstrip()))


def _span_at(text: str, offset: int) -> Span:
    line_start = text.rfind("\n", 0, offset) + 1
    return Span(line=text.count("\n", 0, offset) + 1, column=offset - line_start + 1)
