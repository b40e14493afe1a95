"""Lines made short, and one way to compare them."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from stitchpath.model.line import Line, LineKind
from stitchpath.model.stitches import Run


def line(
    points: ArrayLike,
    *,
    kind: LineKind = LineKind.QUILTING,
    stitch_mm: float = 2.5,
    anchor: bool = False,
    whole: tuple[tuple[int, int], ...] = (),
) -> Line:
    """Return a line through some points."""
    vertices = np.array(points, dtype=np.float64)
    return Line(points=vertices, kind=kind, stitch_mm=stitch_mm, anchor=anchor, whole=whole)


def run(*lines: Sequence[tuple[float, float]] | Line, stitch_mm: float = 2.5) -> Run:
    """Return one run of lines."""
    made = [
        one if isinstance(one, Line) else line(one, stitch_mm=stitch_mm, kind=LineKind.SEAM)
        for one in lines
    ]
    return Run(lines=tuple(made))


def assert_same_line(got: ArrayLike, expected: ArrayLike, *, tol_mm: float = 1e-9) -> None:
    """Fail where two lines have other vertices, or more of them."""
    one, other = np.asarray(got, dtype=np.float64), np.asarray(expected, dtype=np.float64)
    assert one.shape == other.shape
    np.testing.assert_allclose(one, other, rtol=0, atol=tol_mm)
