"""Lines of stitch files as polylines for machines that follow lines."""

import numpy as np

from stitchpath.machine.line_work import stretches_of
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Run
from tests.support.file_lines import file_line

HERE = Hooping(number=1, field=(100, 100), centre=(0, 0))


def stretches(*points: tuple[float, float], moved: tuple[int, ...]) -> list[list[list[float]]]:
    run = Run(lines=(file_line(points, moved=moved),))
    return [stretch.tolist() for stretch in stretches_of(run, HERE)]


def test_moves_of_a_stitch_file_are_no_lines() -> None:
    assert stretches((0, 0), (3, 0), (9, 0), (12, 0), moved=(2,)) == [
        [[0, 0], [3, 0]],
        [[9, 0], [12, 0]],
    ]


def test_a_place_between_two_moves_is_no_line() -> None:
    assert stretches((0, 0), (3, 0), (9, 9), (20, 0), (22, 0), moved=(2, 3)) == [
        [[0, 0], [3, 0]],
        [[20, 0], [22, 0]],
    ]


def test_a_run_of_nothing_but_moves_is_one_line_all_the_same() -> None:
    assert stretches((0, 0), (3, 0), (9, 9), moved=(1, 2)) == [[[0, 0], [3, 0], [9, 9]]]
    assert np.shape(stretches((0, 0), (3, 0), moved=())) == (1, 2, 2)
