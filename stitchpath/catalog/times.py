"""How long things take at the machine that are not stitches."""

from typing import Final

CUT_SECONDS: Final = 5.0
"""A thread cut by the machine, with tie and start. Common practice (up to 5 s), no source."""
SNIP_SECONDS: Final = 15.0
"""A thread snipped by hand after sewing. Common practice, no source."""
PAUSE_SECONDS: Final = 20.0
"""A stop for the maker. Common practice (6 to 20 s), no source."""
