"""Faces that are the same but for their place, as repeats of a layout leave them."""

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.faces import Borders
from stitchpath.geometry.nodes import cells_of
from stitchpath.geometry.paths import ranges

_SIDE = 2**31  # more cells than any face is wide


def face_keys(borders: Borders, numbers: NDArray[np.intp]) -> list[bytes]:
    """Return a key for each of some faces; those with the same one lie over one another.

    A key holds every segment beside the face, loose ones too, from the corner of its box, in
    cells of `MEETING_MM`: faces with one key, moved, are nowhere further apart than a cell's
    diagonal. Not promised: that faces which are the same have one key. Float noise can tell
    them apart, and so does a turn.

    Cost: O(segments log segments) of these faces, in whole arrays.

    Example:
        >>> from stitchpath.geometry.faces import find_faces
        >>> box = np.array([[0.0, 0.0], [9.0, 0.0], [9.0, 9.0], [0.0, 9.0], [0.0, 0.0]])
        >>> halves = find_faces([box, np.array([[4.5, 0.0], [4.5, 9.0]])]).borders
        >>> left, right = face_keys(halves, np.array([1, 2]))
        >>> left == right
        True
    """
    stretches = borders.stretches
    sides = borders.starts[numbers + 1] - borders.starts[numbers]
    own = borders.order[ranges(borders.starts[numbers], sides)] // 2
    counts = stretches.starts[own + 1] - stretches.starts[own]
    xy = stretches.xy[ranges(stretches.starts[own], counts)]
    face = np.repeat(np.repeat(np.arange(len(numbers)), sides), counts)
    low = np.minimum.reduceat(xy, np.flatnonzero(np.diff(face, prepend=-1)))
    cell = cells_of(xy - low[face])
    code = cell[:, 0] * _SIDE + cell[:, 1]
    goes_on = np.ones(len(code), dtype=np.bool_)
    goes_on[np.cumsum(counts) - 1] = False
    first = np.flatnonzero(goes_on)
    one, other = np.sort(np.stack([code[first], code[first + 1]]), axis=0)
    order = np.lexsort((other, one, face[first]))
    rows = np.column_stack([one, other])[order]
    parts = np.split(rows, np.searchsorted(face[first], np.arange(1, len(numbers))))
    return [part.tobytes() for part in parts]
