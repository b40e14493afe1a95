"""How strong sewing threads are, by what they are made of.

A thread breaks at its tenacity times its size: newtons = cN/tex times tex over 100. The figures
are low ends of usual ranges, from memory; a spool's data sheet goes first.
"""

from typing import Final

TENACITY_CN_PER_TEX: Final = {
    "cotton": 20.0,
    "spun polyester": 30.0,
    "filament polyester": 40.0,
}
"""From memory, no source."""

USUAL_TEX: Final = 25.0
"""About 40 wt; what is taken where nothing is known. Common practice, no source."""

CN_PER_N: Final = 100.0


def thread_strength(tex: float, material: str) -> float:
    """Return the load that breaks one thread, in newtons.

    Args:
        tex: Grams of 1000 m.
        material: A name of `TENACITY_CN_PER_TEX`.

    Example:
        >>> thread_strength(25, "cotton")
        5.0
    """
    return tex * TENACITY_CN_PER_TEX[material] / CN_PER_N
