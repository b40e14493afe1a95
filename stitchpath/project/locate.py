"""Where keys and values stand in the text of a TOML file; `tomllib` does not say.

What cannot be found has no place: no line is shown rather than a wrong one.
"""

import tomllib
from bisect import bisect_right
from dataclasses import dataclass, field
from itertools import accumulate
from typing import Final

from stitchpath.errors import Span
from stitchpath.project.fault import Fault, Path
from stitchpath.project.tokens import Token, tokens_of

_DEEPEST: Final = 20
"""Lists and tables within each other; below that no key of a project lies."""


@dataclass(slots=True)
class Places:
    r"""Offsets (start, end) of what stands in a text, by key path.

    Attributes:
        text: The text, lines ending in `\n`.
        keys: Where a key is written; of a table that a header opens, the name in the header.
        values: Where a value is written.
        tables: Where a table is opened: its header, or the key that it is written under.
    """

    text: str
    keys: dict[Path, tuple[int, int]] = field(default_factory=dict)
    values: dict[Path, tuple[int, int]] = field(default_factory=dict)
    tables: dict[Path, tuple[int, int]] = field(default_factory=dict)
    line_starts: list[int] = field(default_factory=list)

    def span_of(self, fault: Fault) -> Span | None:
        """Return the place a fault points at, or None where the text does not tell."""
        path = fault.path
        if fault.at == "table":
            found = self._innermost(path[:-1])
        elif fault.at == "key":
            found = self.keys.get(path)
        else:
            found = self.values.get(path) or self.tables.get(path)
        return self.span(*found) if found else None

    def _innermost(self, path: Path) -> tuple[int, int] | None:
        """Return the table at a path, or the innermost one around it that is in the text."""
        while path and path not in self.tables and path not in self.values:
            path = path[:-1]
        return self.tables.get(path) or self.values.get(path)

    def typed(self, path: Path) -> str | None:
        """Return a value as it was typed, or None where it is not in the text."""
        found = self.values.get(path)
        return None if found is None else self.text[found[0] : found[1]]

    def span(self, start: int, end: int) -> Span:
        """Return offsets as line, column and width; of several lines, the first."""
        line = bisect_right(self.line_starts, start)
        line_end = self.text.find("\n", start)
        stop = end if line_end < 0 else min(end, line_end)
        column = start - self.line_starts[line - 1] + 1
        return Span(line=line, column=column, width=max(stop - start, 1))


def find_places(text: str) -> Places:
    r"""Return where every key and value of a TOML text stands.

    Args:
        text: Text that `tomllib` has read without error, lines ending in `\n`.

    Cost: O(n) in the text's length.

    Example:
        >>> places = find_places('[[a]]\nb = 1\n[[a]]\n"b" = { c = [2, "x # y"] }')
        >>> places.typed(("a", 1, "b", "c", 1)), places.span(*places.keys[("a", 1, "b")])
        ('"x # y"', Span(line=4, column=1, width=3))
    """
    reader = _Reader(text)
    while reader.token is not None:
        reader.statement()
    starts = [0, *accumulate(len(line) + 1 for line in text.split("\n")[:-1])]
    reader.places.line_starts = starts
    return reader.places


class _Reader:
    """Walks the tokens once, and notes what it passes."""

    def __init__(self, text: str) -> None:
        self.places = Places(text)
        self._tokens = tokens_of(text)
        self.token: Token | None = next(self._tokens, None)
        self._last_end = 0
        self._table: Path = ()
        self._counts: dict[Path, int] = {}

    def statement(self) -> None:
        """Pass one header, one `key = value`, or an empty line."""
        if self._at("["):
            self._header()
        elif self._is_key():
            self._pair(self._table)
        self._skip_line()

    def _header(self) -> None:
        start = self._start()
        self._next()
        is_list = self._at("[")
        if is_list:
            self._next()
        parts = [name for name, _, _ in self._key_parts()]
        while self._at("]"):
            self._next()
        place = (start, self._last_end)
        path: Path = ()
        for number, part in enumerate(parts):
            path = (*path, part)
            self.places.tables.setdefault(path, place)
            self.places.keys.setdefault(path, place)
            if is_list and number == len(parts) - 1:
                self._counts[path] = self._counts.get(path, 0) + 1
            if path in self._counts:
                path = (*path, self._counts[path] - 1)
        self.places.tables[path] = place
        self._table = path

    def _pair(self, table: Path, depth: int = 0) -> None:
        path = table
        for name, start, end in self._key_parts():
            path = (*path, name)
            self.places.keys.setdefault(path, (start, end))
            self.places.tables.setdefault(path, (start, end))
        self.places.tables.pop(path, None)
        if self._at("="):
            self._next()
            self._value(path, depth)

    def _value(self, path: Path, depth: int) -> None:
        start = self._start()
        if depth > _DEEPEST:
            self._skip_brackets()
        elif self._at("["):
            self._items(path, depth)
        elif self._at("{"):
            self._inline_table(path, depth)
        else:
            while self._in_scalar():
                self._next()
        self.places.values[path] = (start, self._last_end)

    def _items(self, path: Path, depth: int) -> None:
        self._next()
        number = 0
        while self.token is not None and not self._at("]"):
            if self._at(",") or self.token.kind == "newline":
                self._next()
                continue
            before = self.token
            self._value((*path, number), depth + 1)
            number += 1
            if self.token is before:  # nothing that could be a value
                self._next()
        self._next()

    def _inline_table(self, path: Path, depth: int) -> None:
        self._next()
        while self.token is not None and not self._at("}"):
            if self._is_key():
                self._pair(path, depth + 1)
            else:
                self._next()
        self._next()

    def _key_parts(self) -> list[tuple[str, int, int]]:
        parts: list[tuple[str, int, int]] = []
        while self.token is not None and (self._is_key() or self._at(".")):
            if not self._at("."):
                parts.append((_key_name(self.token), self.token.start, self.token.end))
            self._next()
        return parts

    def _skip_brackets(self) -> None:
        depth = 0
        while self.token is not None:
            depth += self._at("[") + self._at("{") - self._at("]") - self._at("}")
            if depth < 0 or (depth == 0 and (self._at(",") or self.token.kind == "newline")):
                return
            self._next()

    def _skip_line(self) -> None:
        while self.token is not None and self.token.kind != "newline":
            self._next()
        self._next()

    def _in_scalar(self) -> bool:
        if self.token is None or self.token.kind == "newline":
            return False
        return self.token.kind != "mark" or self.token.text == "."

    def _is_key(self) -> bool:
        return self.token is not None and self.token.kind in {"bare", "string"}

    def _at(self, mark: str) -> bool:
        return self.token is not None and self.token.kind == "mark" and self.token.text == mark

    def _start(self) -> int:
        return self._last_end if self.token is None else self.token.start

    def _next(self) -> None:
        if self.token is not None and self.token.kind != "newline":
            self._last_end = self.token.end
        self.token = next(self._tokens, None)


def _key_name(token: Token) -> str:
    if token.kind != "string":
        return token.text
    try:
        return str(tomllib.loads(f"x = {token.text}")["x"])
    except tomllib.TOMLDecodeError:
        return token.text
