"""Needle points as few bytes as a page can hold and a browser can read at once.

A hooping's points lie on the 0.1 mm grid of the stitch files, in the field's frame. They are
written as steps from point to point, first all x, then all y, one signed byte each, in base64
(RFC 4648, section 4): 2.7 bytes a stitch. Steps of more than 12.7 mm do not fit; they are
listed apart, and their bytes are 0.
"""

import base64
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, in_steps, parts_of
from stitchpath.model.plan import SewnHooping
from stitchpath.model.stitches import Op
from stitchpath.preview.trace import trace

_LARGEST: Final = 127


def encoded_points(sewn: SewnHooping) -> dict[str, Any]:
    """Return a hooping's needle points and what happens between them.

    Returns:
        `count`, how many needle points; `steps`, their bytes; `wide`, the steps that do not
        fit, as [point, x, y] in tenths of a mm; `runs` and `hops`, the points before which the
        frame moves without sewing, at the start of a run or within one; `cuts` and `pauses`,
        the points before which the thread is cut or the machine stops. A cut or pause after
        the last point stands before the point `count`. `threads` where designs change them:
        [point, thread], from that point on, 0 being the stage's.

    Cost: O(n), far above ten million points a second.
    """
    op = sewn.stitches.op
    traced = trace(sewn.stitches, sewn.hooping.to_field, runs=sewn.runs)
    steps, wide = _steps(traced.strands.points)
    starts = traced.strands.starts
    begins_run = np.diff(traced.run_of, prepend=-1) > 0
    changes = np.flatnonzero(np.diff(traced.thread_of, prepend=0))
    threads = np.column_stack([starts[changes], traced.thread_of[changes]]).tolist()
    return {
        "count": len(steps),
        "steps": base64.b64encode(steps.T.tobytes()).decode("ascii"),
        "wide": wide,
        "runs": starts[begins_run].tolist(),
        "hops": starts[~begins_run].tolist(),
        "cuts": _points_before(op, Op.CUT),
        "pauses": _points_before(op, Op.PAUSE),
        **({"threads": threads} if threads else {}),
    }


def _steps(points: Points) -> tuple[NDArray[np.int8], list[list[int]]]:
    """Return the steps from point to point, shape (n, 2), and those that do not fit apart."""
    fits = np.empty(points.shape, dtype=np.int8)
    listed: list[list[int]] = []
    last = np.zeros((1, 2), dtype=np.int64)
    for part in parts_of(len(points)):
        cells = np.concatenate([last, in_steps(points[part])])
        steps, last = np.diff(cells, axis=0), cells[-1:]
        is_far = np.abs(steps) > _LARGEST
        wide = np.flatnonzero(is_far[:, 0] | is_far[:, 1])
        listed += np.column_stack([wide + part.start, steps[wide]]).tolist()
        steps[wide] = 0
        fits[part] = steps
    return fits, listed


def _points_before(op: NDArray[np.uint8], what: Op) -> list[int]:
    """Return the needle points before which something happens."""
    reached = np.cumsum(op == Op.STITCH)
    points: list[int] = reached[op == what].tolist()
    return points
