"""The pocket's corners and seam beside the repair manuals' figures.

Source: US Army TM 10-1670 series, stitching tables (docs/sources.md): straight stitching is
locked by backstitching at least 1/2 in (12.7 mm); light and medium cloth is sewn with 7 to 11
stitches to the inch. How often one line may be sewn over (3 to 4 times) is common practice, no
source.
"""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import path_length
from stitchpath.model.quilt import PocketSeam, Quilting
from stitchpath.pieces.corner import corner_path

LOCK_MM = 12.7
TO_THE_INCH = (7, 11)


@pytest.mark.parametrize("passes", [2, 3, 4, 5])
def test_a_corner_locks_the_seams_end_by_more_than_a_backstitch(passes: int) -> None:
    """What the triangle sews over again is longer than the manuals' backstitch."""
    seam = PocketSeam()
    path = corner_path(
        corner=(0, 0), side_mm=seam.corner_side, across_mm=seam.corner_across, passes=passes
    )
    once = shapely.union_all(
        [shapely.LineString(pair) for pair in np.stack([path[:-1], path[1:]], axis=1)]
    ).length
    assert path_length(path) - once >= LOCK_MM


def test_one_pass_sews_over_nothing_but_closes_the_triangle() -> None:
    """So it is the weaker lock: only its ties and the closed figure hold it."""
    seam = PocketSeam()
    path = corner_path(
        corner=(0, 0), side_mm=seam.corner_side, across_mm=seam.corner_across, passes=1
    )
    assert path[0].tolist() == path[-1].tolist()


def test_usual_passes_stay_below_what_perforates() -> None:
    assert 2 <= PocketSeam().passes <= 4


@pytest.mark.parametrize("stitch_mm", [PocketSeam().stitch_length, Quilting().stitch_length])
def test_usual_stitches_lie_within_the_manuals_range(stitch_mm: float) -> None:
    low, high = TO_THE_INCH
    assert low <= 25.4 / stitch_mm <= high
