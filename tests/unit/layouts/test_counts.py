"""How many lines the straight layouts lay, counted by hand. Construction: elementary."""

import numpy as np
import pytest

from stitchpath.layouts import lay_lines
from stitchpath.model.line import Line
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pieces import make_tasks


def _lines(
    width: float, length: float, *, edge_stitch: float = 0, **keys: object
) -> list[Line]:
    """Return the quilting lines of one layout on a bare piece."""
    quilting = Quilting(**keys)  # type: ignore[arg-type]
    quilt = Quilt(width=width, length=length, edge_stitch=edge_stitch, quilting=(quilting,))
    (task,) = make_tasks(Project(quilt=quilt))
    lines = lay_lines(task).lines
    return [line for line in lines if line.kind == "quilting"]


def _upright_at(lines: list[Line]) -> list[float]:
    upright = [line for line in lines if np.ptp(line.points[:, 0]) < 1e-9]
    return sorted(round(float(line.points[0, 0]), 6) for line in upright)


def _level_at(lines: list[Line]) -> list[float]:
    level = [line for line in lines if np.ptp(line.points[:, 1]) < 1e-9]
    return sorted(round(float(line.points[0, 1]), 6) for line in level)


def test_crosshatch_from_the_centre_runs_through_it() -> None:
    """600 x 400 at 100: upright at 100..500 through 300, level at 100, 200, 300."""
    lines = _lines(600, 400, layout="crosshatch", spacing=100)
    assert _upright_at(lines) == [100, 200, 300, 400, 500]
    assert _level_at(lines) == [100, 200, 300]
    assert len(lines) == 8


def test_crosshatch_from_the_centre_leaves_equal_rests_at_both_edges() -> None:
    """500 x 320 at 100: upright at 50, 150, 250 (the middle), 350, 450."""
    lines = _lines(500, 320, layout="crosshatch", spacing=100)
    assert _upright_at(lines) == [50, 150, 250, 350, 450]
    assert _level_at(lines) == [60, 160, 260]


def test_crosshatch_from_the_edge_is_measured_from_the_left_and_upper_edge() -> None:
    """The lines on the very edge are left out: it is turned or bound."""
    lines = _lines(470, 320, layout="crosshatch", spacing=100, start="edge")
    assert _upright_at(lines) == [100, 200, 300, 400]
    assert _level_at(lines) == [100, 200, 300]


def test_measuring_from_the_edge_begins_at_the_edge_line_where_there_is_one() -> None:
    lines = _lines(470, 320, layout="crosshatch", spacing=100, start="edge", edge_stitch=8)
    assert _upright_at(lines) == [108, 208, 308, 408]


def test_a_margin_moves_where_measuring_begins_and_lines_end() -> None:
    """Margin 60 in 470: the area is 60..410; its own edge is not sewn, so it gets a line."""
    lines = _lines(470, 320, layout="crosshatch", spacing=100, start="edge", margin=60)
    assert _upright_at(lines) == [60, 160, 260, 360]
    assert _level_at(lines) == [60, 160, 260]
    for line in lines:
        assert line.points.min() >= 60
        assert (line.points.max(axis=0) <= (410, 260)).all()


def test_a_margin_keeps_lines_from_the_centre_where_they_are() -> None:
    lines = _lines(600, 400, layout="parallel", spacing=100, angle=90.0, margin=150)
    assert _upright_at(lines) == [200, 300, 400]


@pytest.mark.parametrize(("angle", "count"), [(0.0, 3), (180.0, 3), (90.0, 5), (-90.0, 5)])
def test_parallel_lines_run_across_or_along_by_their_angle(angle: float, count: int) -> None:
    lines = _lines(600, 400, layout="parallel", spacing=100, angle=angle)
    assert len(lines) == count
    assert len(_level_at(lines) if count == 3 else _upright_at(lines)) == count


def test_crosshatch_on_its_corner_has_lines_across_the_diagonals() -> None:
    """A square of 400 at 100: its diagonal is 565.7, so offsets 0, +-100, +-200 each way."""
    lines = _lines(400, 400, layout="crosshatch", spacing=100, angle=45.0)
    assert len(lines) == 10
    lengths = sorted(float(np.hypot(*(line.points[1] - line.points[0]))) for line in lines)
    # at offset d from the middle a diagonal line is sqrt(2) * 400 - 2 d long
    expected = sorted(2 * [400 * np.sqrt(2) - 2 * d for d in (0, 100, 100, 200, 200)])
    np.testing.assert_allclose(lengths, expected)


def test_parallel_lines_at_sixty_degrees_are_spaced_square_to_themselves() -> None:
    lines = _lines(400, 400, layout="parallel", spacing=50, angle=60.0)
    normal = np.array([np.cos(np.radians(150)), np.sin(np.radians(150))])
    offsets = np.sort([float(line.points[0] @ normal) for line in lines])
    np.testing.assert_allclose(np.diff(offsets), 50)
    # the square reaches 400 * (sin 60 + cos 60) / 2 = 273.2 from its middle: 5 lines each side
    assert len(lines) == 11


def test_a_diagonal_runs_from_corner_to_corner() -> None:
    lines = _lines(300, 400, layout="diagonal", spacing=80)
    (middle,) = [line for line in lines if line.anchor]
    np.testing.assert_allclose(middle.points, [(0, 0), (300, 400)], atol=1e-9)
    # corners lie 300 * 400 / 500 = 240 from it: 80, 160 and 240 (a mere point) each side
    assert len(lines) == 5


def test_the_other_diagonal_is_its_mirror_image() -> None:
    falling = _lines(300, 400, layout="diagonal", spacing=80)
    rising = _lines(300, 400, layout="diagonal", spacing=80, angle=90.0)
    mirrored = sorted((line.points * (-1, 1) + (300, 0))[:, 1].tolist() for line in falling)
    found = sorted(sorted(line.points[:, 1].tolist()) for line in rising)
    np.testing.assert_allclose(found, sorted(sorted(pair) for pair in mirrored), atol=1e-9)
