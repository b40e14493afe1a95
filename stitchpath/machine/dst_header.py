"""The extents in the header of a dst file.

The library gives distances of the stitches from the start without regard to their side, which
is wrong where a design does not lie around its start, and has the y axis upside down. A machine
may judge by them whether a design fits the hoop.
"""

from typing import Final

import numpy as np

from stitchpath.machine.records import Records

EXTENTS_AT: Final = 38  # after LA (20 bytes), ST (11) and CO (7)


def with_true_extents(data: bytes, records: Records) -> bytes:
    """Return the file with +X, -X, +Y and -Y measured from its start, y up.

    Source: the header's table at community.kde.org/Projects/Liberty/File_Formats (fields,
    offsets and widths); edutechwiki.unige.ch/en/Embroidery_format_DST (what they mean).

    Args:
        data: A dst file as the library writes it.
        records: What it was written from.
    """
    high, low = np.maximum(records.xy_units.max(axis=0), 0), records.xy_units.min(axis=0)
    right, below = high.tolist()
    left, above = (-np.minimum(low, 0)).tolist()
    fields = f"+X:{right:5d}\r-X:{left:5d}\r+Y:{above:5d}\r-Y:{below:5d}\r".encode("ascii")
    return data[:EXTENTS_AT] + fields + data[EXTENTS_AT + len(fields) :]
