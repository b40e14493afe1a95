"""Where no thread may lie across: the layouts' keep-outs, less what other layouts quilt."""

import pytest
import shapely

from stitchpath.geometry.tolerance import MEETING_MM
from stitchpath.layouts import lay_lines
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pieces import make_tasks

BLOCK = Shape(rectangle=(100, 50, 80, 60))


def _barriers(*quilting: Quilting, pocket: Pocket | None = None) -> shapely.Geometry | None:
    quilt = Quilt(width=600, length=400, edge_stitch=0, quilting=quilting)
    task = next(t for t in make_tasks(Project(quilt=quilt, pocket=pocket)) if t.name == "quilt")
    return lay_lines(task).barriers


def test_without_keep_outs_nothing_bars_the_way() -> None:
    assert _barriers(Quilting(spacing=50)) is None


def test_no_thread_lies_across_a_keep_out_but_it_may_along_its_border() -> None:
    barriers = _barriers(Quilting(spacing=50, keep_out=(BLOCK,)))
    assert barriers is not None
    assert shapely.area(barriers) == pytest.approx(80 * 60, abs=280 * MEETING_MM * 1.01)
    assert not shapely.intersects(barriers, shapely.LineString([(100, 50), (180, 50)]))
    assert shapely.intersects(barriers, shapely.LineString([(100, 51), (180, 51)]))


def test_margin_round_a_keep_out_may_be_crossed() -> None:
    barriers = _barriers(Quilting(spacing=50, margin=10, keep_out=(BLOCK,)))
    assert barriers is not None
    assert tuple(shapely.bounds(barriers)) == pytest.approx(
        (100, 50, 180, 110), abs=2 * MEETING_MM
    )


def test_keep_outs_of_all_layouts_count() -> None:
    halves = [Shape(rectangle=(x, 0, 300, 400)) for x in (0, 300)]
    blocks = [Shape(rectangle=(x, 50, 40, 40)) for x in (100, 400)]
    barriers = _barriers(
        *(
            Quilting(spacing=50, area=h, keep_out=(b,))
            for h, b in zip(halves, blocks, strict=True)
        )
    )
    assert barriers is not None
    assert shapely.area(barriers) == pytest.approx(2 * 40 * 40, rel=1e-3)


def test_where_another_layout_quilts_in_a_keep_out_thread_may_lie() -> None:
    around = Quilting(spacing=50, keep_out=(BLOCK,))
    inside = Quilting(layout="diagonal", spacing=20, area=BLOCK)
    assert _barriers(around, inside) is None


def test_the_pockets_place_bars_the_way_where_it_is_kept_clear() -> None:
    pocket = Pocket(width=200, length=200, raise_=20)
    barriers = _barriers(Quilting(spacing=50, keep_out=(Shape(footprint=True),)), pocket=pocket)
    assert barriers is not None
    assert tuple(shapely.bounds(barriers)) == pytest.approx(
        (200, 180, 400, 380), abs=2 * MEETING_MM
    )
