"""Wandering lines: rounding a polygon's corners without letting it meet itself."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.tolerance import FLATNESS_MM
from stitchpath.layouts import _wander
from stitchpath.layouts._wander import wander


def test_rounding_follows_the_quadratic_spline() -> None:
    # de Boor: the uniform quadratic B-spline of a closed control polygon passes through the
    # middles of its sides, and through (a + 6 b + c) / 8 nearest to a corner b; from memory
    square = np.array([[0.0, 0.0], [8.0, 0.0], [8.0, 8.0], [0.0, 8.0]])
    line = shapely.LineString(_wander._rounded(square, 1.0))  # noqa: SLF001 - no other way to a given polygon
    for point in ([4, 0], [8, 4], [4, 8], [0, 4], [1, 1], [7, 1], [7, 7], [1, 7]):
        assert line.distance(shapely.Point(point)) <= FLATNESS_MM


def test_a_polygon_that_would_meet_itself_when_rounded_is_rounded_less() -> None:
    # a spike reaches into the corner at 10, 0, which full rounding would cut off above its tip
    spike = [[9.6, 10.0], [9.6, 0.4], [9.2, 0.4], [9.2, 10.0]]
    corners = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], *spike, [0.0, 10.0]])
    full = _wander._spline(corners, np.full(len(corners), 0.5))  # noqa: SLF001 - as above
    assert not shapely.LineString(full).is_simple
    rounded = shapely.LineString(_wander._rounded(corners, 3.0))  # noqa: SLF001 - as above
    assert rounded.is_ring


def test_a_line_that_cannot_be_rounded_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    bow = np.array([[0.0, 0.0], [10.0, 10.0], [10.0, 0.0], [0.0, 10.0]])
    monkeypatch.setattr(_wander, "_corners", lambda *_: bow)
    assert wander(shapely.box(0, 0, 50, 50), spacing_mm=20, seed=1) == []
