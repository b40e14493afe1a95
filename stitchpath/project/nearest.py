"""The nearest word: what somebody meant who wrote something else."""

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Final

_LONGEST_WORD: Final = 40
"""Nobody means a key of ours by a longer word, and comparing takes the square of its length."""
_LIKENESS: Final = 0.6


def nearest(word: str, words: Iterable[str]) -> str | None:
    """Return the word most like `word`, or None where none is like it.

    Capitals, hyphens, spaces and underscores count as alike. Likeness is that of `difflib`
    (twice the matching characters over all characters), at least 0.6.

    Example:
        >>> nearest("Stich-Lenght", ["start", "stitch_length"]), nearest("colour", ["name"])
        ('stitch_length', None)
    """
    if len(word) > _LONGEST_WORD:
        return None
    plain = {_plain(candidate): candidate for candidate in words}
    close = get_close_matches(_plain(word), plain, n=1, cutoff=_LIKENESS)
    return plain[close[0]] if close else None


def _plain(word: str) -> str:
    return word.casefold().replace("-", "_").replace(" ", "_")
