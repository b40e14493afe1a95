"""The text of a TOML file cut into tokens, each with its place.

Only as much of TOML (version 1.0) as it takes to know where keys and values stand; whether the
text is TOML at all is for `tomllib` to say. On text that is not, the tokens end where nothing
fits; nothing is raised.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias, cast

TokenKind: TypeAlias = Literal["newline", "string", "mark", "bare"]

_TOKEN: Final = re.compile(
    r"""(?P<skip>[\x20\t]+|\#[^\n]*)
    |(?P<newline>\n)
    |(?P<string>
        \"{3}(?:\\.|[^\\])*?\"{3,5}     # up to two quotes may stand before the closing three
       |'{3}.*?'{3,5}
       |"(?:\\.|[^"\\\n])*"
       |'[^'\n]*')
    |(?P<mark>[\[\]{}=,.])
    |(?P<bare>[^\s\[\]{}=,."'\#]+)""",
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the text.

    Attributes:
        kind: A line's end, a quoted string, one of the marks `[ ] { } = , .`, or a bare word.
        text: As it is written.
        start: Offset of its first character.
    """

    kind: TokenKind
    text: str
    start: int

    @property
    def end(self) -> int:
        """Offset after its last character."""
        return self.start + len(self.text)


def tokens_of(text: str) -> Iterator[Token]:
    r"""Yield the tokens of a text; spaces and comments are left out.

    Example:
        >>> [token.text for token in tokens_of('a."b c" = [1, "#"] # note')]
        ['a', '.', '"b c"', '=', '[', '1', ',', '"#"', ']']
    """
    place = 0
    while (match := _TOKEN.match(text, place)) is not None:
        if match.lastgroup != "skip":
            yield Token(cast("TokenKind", match.lastgroup), match[0], place)
        place = match.end()


def deepest_key(text: str) -> tuple[int, int]:
    """Return how many parts the longest dotted key has, and the offset of its first part.

    A decimal number counts as two parts.
    """
    most, where, parts, start, after_dot = 0, 0, 0, 0, False
    for token in tokens_of(text):
        if token.text == ".":
            after_dot = True
            continue
        parts, start = (parts + 1, start) if after_dot else (1, token.start)
        after_dot = False
        if parts > most:
            most, where = parts, start
    return most, where
