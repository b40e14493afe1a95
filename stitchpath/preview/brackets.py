"""Brackets in lines of both directions: each pair is told which way it runs.

`python-bidi` orders letters but knows no pairs, so that the brackets of a pair could come
apart. Marks that have a direction and no width, put round each bracket, say what the rule for
pairs says.

Source: Unicode Standard Annex 9 (Unicode 16), rule N0 and definition BD16. Of brackets only
these three pairs, as names have them; base direction and embedding are the whole line's.
"""

from collections.abc import Iterator, Sequence
from typing import Final
from unicodedata import bidirectional

_PAIRS: Final = {"(": ")", "[": "]", "{": "}"}
_MARKS: Final = {"L": "\u200e", "R": "\u200f"}
_FIRM: Final = ("L", "R", "AL")
_STRONG: Final = {"L": "L", "R": "R", "AL": "R", "EN": "R", "AN": "R"}
"""Within this rule numbers count as written from right to left."""


def with_marks(text: str, *, base: str) -> str:
    """Return a line in its logical order, with marks round the brackets of pairs.

    Args:
        text: The line.
        base: Its direction, `L` or `R`.
    """
    ways = _ways(text, base)
    for start, end in _pairs(text):
        inside = set(ways[start + 1 : end]) - {""}
        if inside:
            before = next((way for way in reversed(ways[:start]) if way), base)
            ways[start] = ways[end] = base if base in inside else before
    return "".join(_marked(text, ways, base))


def _marked(text: str, ways: Sequence[str], base: str) -> Iterator[str]:
    """Yield letters, marks round brackets, and before a number what it would have followed."""
    last = seen = base
    for letter, way in zip(text, ways, strict=True):
        kind = bidirectional(letter)
        if kind in _FIRM:
            last = seen = _STRONG[kind]
        elif kind == "EN" and seen != last:
            yield _MARKS[last]
            seen = last
        if way and kind == "ON":
            yield f"{_MARKS[way]}{letter}{_MARKS[way]}"
            seen = way
        else:
            yield letter


def without_marks(text: str) -> str:
    """Return a line without such marks."""
    return text.translate({ord(mark): None for mark in _MARKS.values()})


def _ways(text: str, base: str) -> list[str]:
    """Return which way each letter runs, empty where that is left to its neighbours."""
    ways, last = [], base
    for letter in text:
        kind = bidirectional(letter)
        way = last if kind == "EN" and last == "L" else _STRONG.get(kind, "")  # rule W7
        if kind in _FIRM:
            last = way
        ways.append(way)
    return ways


def _pairs(text: str) -> list[tuple[int, int]]:
    """Return where brackets open and close, in the order in which they open."""
    opened: list[tuple[str, int]] = []
    pairs = []
    for at, letter in enumerate(text):
        if letter in _PAIRS:
            opened.append((_PAIRS[letter], at))
        else:
            match = [place for place, (close, _) in enumerate(opened) if close == letter]
            if match:
                pairs.append((opened[match[-1]][1], at))
                del opened[match[-1] :]
    return sorted(pairs)
