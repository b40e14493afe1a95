"""A design's name as any machine can show it."""

import unicodedata
from typing import Final

_PLAIN_NAME: Final = "QUILT"


def plain_name(name: str, length: int) -> str:
    """Return a name that any machine can show: ASCII letters, digits, `-` and `_`.

    Example:
        >>> plain_name("Sea Glass №7 \N{SPARKLES}", 16), plain_name("Crème brûlée", 8)
        ('Sea_Glass_No7', 'Creme_br')
    """
    letters = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii")
    plain = "".join(c if c.isalnum() or c == "-" else "_" for c in letters)
    words = "_".join(word for word in plain.split("_") if word)
    return words[:length].strip("_-") or _PLAIN_NAME
