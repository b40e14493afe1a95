"""Changes text by its words and lines, so that what comes out is often still text of its kind.

Bytes changed at random seldom are: most of such inputs end where their form is looked at.
"""

import random
import re
from collections.abc import Callable
from typing import Final

_TOKEN: Final = re.compile(rb"[A-Za-z_][\w-]*|[\d.]+|[ \t]+|\s|[^\w\s]|.", re.DOTALL)
_NUMBERS: Final = (
    *(b"0", b"1", b"2", b"3", b"-1", b"0.1", b"0.05", b"1e-9", b"7.5", b"50", b"1000", b"1e5"),
    *(b"1e9", b"1e308", b"1e400", b"nan", b"inf", b"9" * 40),
)
_TIMES: Final = (1, 1, 1, 2, 2, 4)


def changed_text(data: bytes, words: tuple[bytes, ...], chance: random.Random) -> bytes:
    """Return text with a few of its tokens or lines changed.

    Args:
        data: Any bytes.
        words: What may come in.
        chance: What is drawn from.
    """
    for _ in range(chance.choice(_TIMES)):
        by_lines = chance.random() < 1 / 4
        parts = data.splitlines(keepends=True) if by_lines else _TOKEN.findall(data)
        if parts:
            chance.choice(_CHANGES)(parts, words, chance)
        data = b"".join(parts)
    return data


def _leave_out(parts: list[bytes], _: tuple[bytes, ...], chance: random.Random) -> None:
    at = chance.randrange(len(parts))
    del parts[at : at + chance.randint(1, 4)]


def _repeat(parts: list[bytes], _: tuple[bytes, ...], chance: random.Random) -> None:
    at, to = chance.randrange(len(parts)), chance.randrange(len(parts))
    parts[to:to] = parts[at : at + chance.randint(1, 4)]


def _swap(parts: list[bytes], _: tuple[bytes, ...], chance: random.Random) -> None:
    at, to = chance.randrange(len(parts)), chance.randrange(len(parts))
    parts[at], parts[to] = parts[to], parts[at]


def _bring_in(parts: list[bytes], words: tuple[bytes, ...], chance: random.Random) -> None:
    parts.insert(chance.randrange(len(parts)), chance.choice(words))


def _put_a_word(parts: list[bytes], words: tuple[bytes, ...], chance: random.Random) -> None:
    """Put a word in the place of one."""
    places = [at for at, part in enumerate(parts) if part[:1].isalpha()]
    if places:
        parts[chance.choice(places)] = chance.choice(words)


def _put_a_number(parts: list[bytes], _: tuple[bytes, ...], chance: random.Random) -> None:
    """Put a number in the place of one."""
    places = [at for at, part in enumerate(parts) if part[:1].isdigit()]
    if places:
        parts[chance.choice(places)] = chance.choice(_NUMBERS)


_CHANGES: Final[tuple[Callable[[list[bytes], tuple[bytes, ...], random.Random], None], ...]] = (
    *(_leave_out, _repeat, _swap, _bring_in, _put_a_word, _put_a_word),
    *(_put_a_number, _put_a_number),
)
