"""The fewest fields that reach some lines, by a plain integer programme over a whole lattice.

For lines along the axes whose ends, and fields whose sides, are whole multiples of a unit,
joined by an overlap of one unit. Then some cover of fewest fields lies on the lattice of that
unit: what fields have to satisfy are differences (the next begins so far before this one ends;
this one begins before the line does), and rounding all places down keeps differences of whole
numbers. Every position of the lattice is tried; every place on every line, half a unit apart,
has to lie in some field with half a unit on both sides. Between those places nothing changes.
"""

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from stitchpath.geometry.points import Points


def least_fields(
    lines: list[Points], wholes: list[list[float]], sides: tuple[float, float], unit: float
) -> int:
    """Return the fewest fields, upright or turned, that reach all lines and hold all wholes.

    Args:
        lines: Polylines along the axes, mm.
        wholes: Left, top, right, bottom of what one field has to hold each.
        sides: Width and height that a field reaches.
        unit: What all lengths are multiples of, and the overlap.
    """
    needs = np.array([*_stretches(lines, unit), *wholes], dtype=np.float64)
    low, high = needs[:, :2].min(axis=0), needs[:, 2:].max(axis=0)
    columns: list[np.ndarray] = []
    for width, height in {sides, sides[::-1]}:
        xs = np.arange(low[0] - width, high[0] + unit, unit)
        ys = np.arange(low[1] - height, high[1] + unit, unit)
        in_x = (xs[:, None] <= needs[:, 0]) & (needs[:, 2] <= xs[:, None] + width)
        in_y = (ys[:, None] <= needs[:, 1]) & (needs[:, 3] <= ys[:, None] + height)
        columns.append((in_x[:, None] & in_y[None]).reshape(-1, len(needs)))
    held = np.unique(np.concatenate(columns), axis=0)
    result = milp(
        np.ones(len(held)),
        integrality=np.ones(len(held)),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(csr_matrix(held.T.astype(float)), lb=1.0),
    )
    assert result.status == 0, "not solved to the end"
    return round(float(result.fun))


def _stretches(lines: list[Points], unit: float) -> list[list[float]]:
    found: list[list[float]] = []
    for line in lines:
        along = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(line, axis=0)).sum(axis=1))])
        for middle in np.arange(0.0, along[-1] + unit / 4, unit / 2):
            start, end = max(0.0, middle - unit / 2), min(along[-1], middle + unit / 2)
            inner = (start < along) & (along < end)
            where = np.concatenate([[start, end], along[inner]])
            x, y = (np.interp(where, along, line[:, axis]) for axis in (0, 1))
            found.append([x.min(), y.min(), x.max(), y.max()])
    return found
