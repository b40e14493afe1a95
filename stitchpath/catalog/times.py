"""What limits a machine's speed besides its setting; times of the maker's are project keys."""

from typing import Final

FRAME_ACCELERATION: Final = 7100.0
"""mm/s^2. The frame starts and stops within one stitch. Fitted to 800 stitches a minute at
2.5 mm (from memory, no source); a timed file corrects it."""
NEEDLE_OUT_SHARE: Final = 0.5
"""Share of a turn in which the needle is out of the cloth. From memory, no source."""
