"""A hooping as the format library takes it."""

from typing import Final

import numpy as np
from pyembroidery import JUMP, STITCH, TRIM

from stitchpath.model.plan import SewnHooping
from stitchpath.model.stitches import Op

_COMMAND: Final = np.array([STITCH, JUMP, TRIM])  # by Op; these quilts have no pauses


def library_rows(sewn: SewnHooping) -> bytes:
    """Return a hooping as rows of x, y and command for `library_alone.py`."""
    stitches = sewn.stitches
    assert not np.any(stitches.op == Op.PAUSE)
    tenths = np.rint(sewn.hooping.to_field(stitches.xy) * 10)
    return np.column_stack([tenths, _COMMAND[stitches.op]]).astype(np.int32).tobytes()
