"""How strong sewing threads are, by what they are made of.

A thread breaks at its tenacity times its size: newtons = cN/tex times tex over 100. A spool's
data sheet goes before these figures.
"""

from typing import Final

TENACITY_CN_PER_TEX: Final = {
    "cotton": 20.0,  # the low end of what is usual; from memory, no source
    "spun polyester": 36.0,  # tex 27 breaks at 2.2 lb; see docs/sources.md
    "core-spun polyester": 48.0,  # tex 24 breaks at 2.6 lb; see docs/sources.md
}

USUAL_TEX: Final = 25.0
"""About 40 wt; what is taken where nothing is known. Common practice, no source."""

CN_PER_N: Final = 100.0


def thread_strength(tex: float, fibre: str) -> float:
    """Return the load that breaks one thread, in newtons.

    Args:
        tex: Grams of 1000 m.
        fibre: A name of `TENACITY_CN_PER_TEX`.

    Example:
        >>> thread_strength(25, "cotton")
        5.0
    """
    return tex * TENACITY_CN_PER_TEX[fibre] / CN_PER_N
