"""How many full bobbins a stage takes."""

from math import ceil

from stitchpath.catalog.bobbins import BOBBINS

UNUSED_SHARE = 0.1
"""What is left on a bobbin changed in time. Common practice (5 to 10 %), no source."""


def count_bobbins(bobbin_thread_mm: float, bobbin: str) -> int:
    """Return the number of full bobbins for a length of thread.

    Example:
        >>> count_bobbins(36_000, "L"), count_bobbins(36_001, "L"), count_bobbins(0, "L")
        (1, 2, 0)
    """
    return ceil(bobbin_thread_mm / (BOBBINS[bobbin].thread_mm * (1 - UNUSED_SHARE)))
