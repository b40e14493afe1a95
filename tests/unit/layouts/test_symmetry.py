"""Layouts of petals and rings are symmetric about the centre they start from."""

import pytest

from stitchpath.layouts import find_layout
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import NEAR_MM, distance_apart, drawn, half_turned, mirrored
from tests.support.straight_layouts import rectangle_ground


@pytest.mark.parametrize("size", [(250, 150), (200, 100), (230, 170)])
@pytest.mark.parametrize("fit", [True, False])
@pytest.mark.parametrize("name", ["orange-peel", "wineglass", "terry-twist"])
def test_figure_from_the_centre_is_symmetric_about_it(
    name: str, size: tuple[float, float], *, fit: bool
) -> None:
    ground = rectangle_ground(*size)
    drawing = drawn(find_layout(name).make(ground, Quilting(spacing=50, fit=fit)), ground)
    assert distance_apart(drawing, half_turned(drawing, ground)) < NEAR_MM
    assert distance_apart(drawing, mirrored(drawing, ground)) < NEAR_MM
