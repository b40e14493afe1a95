"""Each rule on shapes on both sides of its limit."""

import time
from typing import Any

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import Points
from stitchpath.model.drawing import Drawing
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pieces import make_tasks
from stitchpath.project.fault import key_path
from stitchpath.project.placed import laid_specs
from stitchpath.project.rules import rule_faults
from stitchpath.project.size_rules import MOST_CORNERS, corners_are_few


def drawing(*strokes: Any) -> Drawing:  # noqa: ANN401 - anything numpy reads as points
    return Drawing(source="shape.svg", strokes=tuple(np.array(s, dtype=float) for s in strokes))


def laid(pocket: bool = False, **spec: Any) -> Project:  # noqa: ANN401 - any key of a layout
    """Return a quilt of 900 by 1200 mm, its edge line 10 mm inside, with one layout."""
    quilt = Quilt(width=900, length=1200, edge_stitch=10, quilting=(Quilting(**spec),))
    return Project(quilt=quilt, pocket=Pocket() if pocket else None)


def told(project: Project) -> list[tuple[str, str]]:
    return [
        (fault.code, key_path(fault.path).removeprefix("quilt.quilting[0]."))
        for fault in rule_faults(project)
    ]


SQUARE = [[0, 0], [100, 0], [100, 100], [0, 100], [0, 0]]


def test_sound_shapes_break_no_rule() -> None:
    for shape in (
        Shape(border=60),
        Shape(rectangle=(100, 100, 300, 200)),
        Shape(polygon=((0, 0), (300, 0), (300, 300))),
        Shape(svg=drawing(SQUARE), at=(200, 200), width=90),
        Shape(footprint=True),
    ):
        assert told(laid(pocket=True, area=shape)) == []
        assert told(laid(pocket=True, keep_out=(shape,))) == []


def test_border_is_narrower_than_half_the_shorter_side() -> None:
    assert told(laid(area=Shape(border=449.9))) == []
    assert told(laid(area=Shape(border=450))) == [("border-too-wide", "area.border")]


def test_footprint_needs_a_pocket_and_is_none_on_it() -> None:
    assert told(laid(keep_out=(Shape(footprint=True),))) == [
        ("no-pocket", "keep_out[0].footprint")
    ]
    quilting = (Quilting(area=Shape(footprint=True)),)
    project = Project(quilt=Quilt(width=900, length=1200), pocket=Pocket(quilting=quilting))
    assert told(project) == [("no-pocket", "pocket.quilting[0].area.footprint")]


def test_footprint_is_where_the_pocket_will_be_sewn() -> None:
    """The rules and the stages work it out by themselves; they must agree."""
    project = laid(pocket=True)
    task = next(task for task in make_tasks(project) if task.name == "quilt")
    ((_, _, piece), *_) = laid_specs(project)
    assert task.piece.shadow is not None
    assert piece.shadow is not None
    assert piece.shadow.tolist() == task.piece.shadow.tolist()


@pytest.mark.parametrize(
    "polygon",
    [
        ((0, 0), (300, 300), (300, 0), (0, 300)),
        ((0, 0), (100, 0), (200, 0)),
        ((0, 0), (0, 0), (0, 0)),
    ],
)
def test_polygon_encloses_one_area(polygon: Any) -> None:  # noqa: ANN401 - corners
    assert told(laid(area=Shape(polygon=polygon))) == [("crossing-outline", "area.polygon")]


def test_drawn_shape_does_not_cross_itself_but_may_lie_within_another() -> None:
    bow = [[0, 0], [100, 100], [100, 0], [0, 100], [0, 0]]
    inner = [[40, 40], [60, 40], [60, 60], [40, 40]]
    assert told(laid(area=Shape(svg=drawing(bow)))) == [("crossing-outline", "area.svg")]
    assert told(laid(area=Shape(svg=drawing(SQUARE, inner)))) == []


def test_drawn_shape_is_closed() -> None:
    open_ = drawing(SQUARE[:-1])
    assert told(laid(area=Shape(svg=open_))) == [("no-closed-shape", "area.svg")]
    assert told(laid(area=Shape(svg=drawing(SQUARE, SQUARE[:2])))) == []


def test_shape_lies_on_its_piece() -> None:
    assert told(laid(area=Shape(rectangle=(880, 100, 100, 100)))) == []
    outside = Shape(rectangle=(900, 100, 100, 100))
    assert told(laid(area=outside)) == [("area-outside", "area.rectangle")]
    assert told(laid(keep_out=(outside,))) == [("area-outside", "keep_out[0].rectangle")]
    assert told(laid(area=Shape(svg=drawing(SQUARE), at=(-60, 0)))) == [
        ("area-outside", "area.svg")
    ]


def test_area_reaches_inside_the_line_along_the_edge() -> None:
    assert told(laid(area=Shape(rectangle=(0, 0, 10.5, 100)))) == []
    assert told(laid(area=Shape(rectangle=(0, 0, 10, 100)))) == [("no-area", "area")]


def test_margin_leaves_something_of_the_area() -> None:
    area = Shape(rectangle=(100, 100, 300, 200))
    assert told(laid(area=area, margin=99.9)) == []
    assert told(laid(area=area, margin=100)) == [("no-area", "margin")]


def test_margin_of_a_whole_piece_is_told_once() -> None:
    assert told(laid(margin=450)) == [("no-area", "margin")]


def test_keep_outs_with_their_margin_leave_something() -> None:
    area = Shape(rectangle=(100, 100, 300, 200))
    kept = Shape(rectangle=(110, 90, 300, 220))
    assert told(laid(area=area, keep_out=(kept,))) == []
    assert told(laid(area=area, keep_out=(kept,), margin=10)) == [("no-area", "keep_out")]


def test_chosen_spacing_is_no_larger_than_the_area() -> None:
    area = Shape(rectangle=(100, 100, 300, 200))
    assert told(laid(area=area, spacing=300)) == []
    assert told(laid(area=area, spacing=300.1)) == [("spacing-too-large", "spacing")]
    assert told(laid(spacing=1180)) == []
    assert told(laid(spacing=1181)) == [("spacing-too-large", "spacing")]


def test_default_spacing_and_one_that_is_not_read_may_be_larger() -> None:
    block = Shape(rectangle=(100, 100, 50, 50))
    leaf = drawing(SQUARE)
    assert told(laid(area=block)) == []
    assert told(laid(area=block, layout="motif", svg=leaf, spacing=500, width=20)) == []


def comb(teeth: int, *, upright: bool) -> Points:
    """Return a closed outline with teeth; two laid crosswise meet teeth x teeth times."""
    step = 800 / teeth
    across = np.repeat(np.arange(teeth) * step, 2) + np.tile([0, step / 2], teeth)
    down = np.tile([0.0, 800.0], teeth)
    ring = np.column_stack([across, down] if upright else [down, across])
    return np.concatenate([ring, [[800.0, 801.0], [-1.0, 801.0]], ring[:1]])


def test_shapes_that_would_take_for_ever_are_refused_soon() -> None:
    kept = tuple(
        Shape(svg=Drawing(source="comb.svg", strokes=(comb(4000, upright=u),)), at=(400, 400))
        for u in (True, False)
    )
    began = time.perf_counter()
    ((code, path),) = told(laid(keep_out=kept))
    assert (code, path[:8]) == ("too-many-corners", "keep_out")
    assert time.perf_counter() - began < 10


def test_corners_are_counted_over_all_shapes() -> None:
    angle = np.linspace(0, 2 * np.pi, MOST_CORNERS // 4 + 1)
    ring = np.column_stack([np.cos(angle), np.sin(angle)]) * 100
    ring[-1] = ring[0]
    shape = Shape(svg=Drawing(source="ring.svg", strokes=(ring,)))
    few = laid(keep_out=(shape,) * 3)
    assert shapely.Polygon(ring).is_valid
    assert [fault.code for fault in corners_are_few(few)] == []
    many = laid(keep_out=(shape,) * 4)
    (fault,) = corners_are_few(many)
    assert f"{MOST_CORNERS:,}" in fault.label
