"""Rings round a piece."""

from stitchpath.model.line import LineKind
from stitchpath.pieces.outline import rectangle, ring_line
from tests.support.lines import assert_same_line


def test_a_rectangle_is_closed_and_begins_at_its_top_left_corner() -> None:
    assert_same_line(rectangle(1, 2, 5, 9), [(1, 2), (5, 2), (5, 9), (1, 9), (1, 2)])


def test_an_edge_line_lies_at_its_inset_on_all_four_sides() -> None:
    ring = ring_line(100, 200, 8, 2.8)
    assert_same_line(ring.points, [(8, 192), (8, 8), (92, 8), (92, 192), (8, 192)])
    assert (ring.kind, ring.stitch_mm, ring.anchor) == (LineKind.EDGE, 2.8, False)
