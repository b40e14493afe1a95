"""Stitches on straight stretches against shapely's own division into equal parts."""

import numpy as np
import shapely
from hypothesis import assume, given

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.sample import sample_paths
from tests.strategies import lengths, polylines
from tests.support.lines import assert_same_line

LIMITS = StitchLimits(shortest_mm=0.5, longest_mm=9.0)


def _turns(line: Points) -> Points:
    heading = np.degrees(np.arctan2(*np.diff(line, axis=0).T[::-1]))
    return np.asarray(np.abs((np.diff(heading) + 180) % 360 - 180))


@given(line=polylines(shortest_mm=8), stitch_mm=lengths(1.5, 6))
def test_equal_parts_are_those_of_shapely(line: Points, stitch_mm: float) -> None:
    """On lines that turn sharply at every vertex and go over nothing twice."""
    assume((_turns(line) > 31).all())
    assume(shapely.LineString(line).is_simple)
    parts = segment_lengths(line) / stitch_mm
    assume((np.abs(parts - np.round(parts)) > 1e-6).all())  # where noise decides
    ours = sample_paths([line], np.array([stitch_mm]), LIMITS).xy
    theirs = shapely.get_coordinates(shapely.segmentize(shapely.LineString(line), stitch_mm))
    assert_same_line(ours, theirs, tol_mm=1e-6)
