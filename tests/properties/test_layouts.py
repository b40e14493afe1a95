"""What holds for every layout on any area."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.layouts import lay_lines, layout_names
from stitchpath.layouts._grounds import find_grounds
from stitchpath.model.drawing import Drawing
from stitchpath.model.line import LineKind
from stitchpath.model.piece import StageTask
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pieces import make_tasks
from tests.strategies import angles, shapes

SIDE_MM = 200.0
LEAF = Drawing(
    source="leaf.svg",
    strokes=(np.array([[0, 10], [8, 0], [16, 10], [8, 20], [0, 10]], dtype=np.float64),),
)


@st.composite
def _quiltings(draw: st.DrawFn, name: str) -> Quilting:
    return Quilting(
        layout=name,
        spacing=draw(st.floats(12, 90)),
        start=draw(st.sampled_from(["centre", "edge"])),
        angle=0.0 if name == "diagonal" else draw(angles()),
        margin=draw(st.just(0.0) | st.floats(0, 30)),
        fit=draw(st.booleans()),
        area=draw(st.none() | shapes(SIDE_MM)),
        keep_out=tuple(draw(st.lists(shapes(SIDE_MM), max_size=2))),
        text="Ab" if name == "text" else "",
        svg=LEAF if name == "motif" else None,
        repeat=draw(st.sampled_from(["single", "straight", "half-drop", "mirrored", "border"])),
    )


def _task(spec: Quilting) -> StageTask:
    quilt = Quilt(width=SIDE_MM, length=SIDE_MM * 1.2, edge_stitch=0, quilting=(spec,))
    (task,) = make_tasks(Project(quilt=quilt))
    return task


@pytest.mark.parametrize("name", layout_names())
@settings(max_examples=settings().max_examples // 4, deadline=None)
@given(data=st.data())
def test_a_layout_stays_in_its_area_and_is_the_same_twice(
    name: str, data: st.DataObject
) -> None:
    """No point of any layout lies outside its area by more than 0.01 mm."""
    task = _task(data.draw(_quiltings(name)))
    laid = lay_lines(task)
    (ground,) = find_grounds(task)
    assert all(line.kind is LineKind.QUILTING for line in laid.lines)
    if ground is None:
        assert laid.lines == ()
        return
    room = ground.region.buffer(0.01)
    for line, again in zip(laid.lines, lay_lines(task).lines, strict=True):
        assert room.covers(shapely.LineString(line.points))
        assert np.array_equal(line.points, again.points)
        steps = np.hypot(*np.diff(line.points, axis=0).T)
        assert steps.max() > SAME_POINT_MM
    _assert_clear(task.quilting[0], [line.points for line in laid.lines])
    (figures,) = laid.layouts
    assert figures.lines == len(laid.lines)
    assert figures.widest_gap_mm > 0


def _assert_clear(spec: Quilting, lines: list[Points]) -> None:
    """Fail where lines leave their area, or enter a keep-out, by more than 0.01 mm."""
    drawn = shapely.MultiLineString(lines)
    piece = shapely.box(0, 0, SIDE_MM, SIDE_MM * 1.2)
    area = piece if spec.area is None else _polygon(spec.area, piece)
    free = shapely.buffer(area, 0.01 - spec.margin, join_style="mitre")
    inside = shapely.intersection(free, piece.buffer(0.01))
    assert shapely.difference(drawn, inside).length < 1e-6
    for shape in spec.keep_out:
        clear = shapely.buffer(_polygon(shape, piece), spec.margin - 0.01, join_style="mitre")
        assert shapely.intersection(drawn, clear).length < 1e-6


def _polygon(shape: Shape, piece: shapely.Polygon) -> shapely.Geometry:
    """Return a shape, made from its words alone."""
    if shape.border is not None:
        return piece.difference(piece.buffer(-shape.border, join_style="mitre"))
    if shape.rectangle is not None:
        left, top, width, height = shape.rectangle
        return shapely.box(left, top, left + width, top + height)
    return shapely.Polygon(shape.polygon)
