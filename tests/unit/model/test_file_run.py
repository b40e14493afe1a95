"""Lines that take their needle points from a stitch file."""

import numpy as np
import pytest

from stitchpath.model.line import FileRun, run_of
from tests.support.file_lines import file_line
from tests.support.lines import line

FOUR = file_line([(0, 0), (3, 0), (3, 3), (0, 3)], moved=[1, 2], paused=[3])


def test_part_of_a_line_has_its_own_rows_and_begins_without_a_move() -> None:
    part = FOUR.between(1, 3)
    assert part.points.tolist() == [[3, 0], [3, 3], [0, 3]]
    assert run_of(part).moved.tolist() == [False, True, False]
    assert run_of(part).paused.tolist() == [False, False, True]


def test_line_from_a_file_is_never_turned_round() -> None:
    with pytest.raises(ValueError, match="sewn as the file has it"):
        FOUR.reversed()


def test_columns_are_as_long_as_the_points_and_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="as long as its points"):
        file_line([(0, 0), (3, 0)]).__class__(
            points=np.zeros((3, 2)), kind=FOUR.kind, stitch_mm=3, file_run=FOUR.file_run
        )
    with pytest.raises(ValueError, match="read-only"):
        run_of(FOUR).moved[0] = True


def test_a_line_of_our_own_has_no_run() -> None:
    with pytest.raises(ValueError, match="from no stitch file"):
        run_of(line([(0, 0), (9, 0)]))
    with pytest.raises(ValueError, match="from no stitch file"):
        line([(0, 0), (9, 0)]).between(0, 1)


def test_only_a_scale_of_one_needs_no_new_stitches() -> None:
    none = np.zeros(2, dtype=np.bool_)
    runs = [
        FileRun(design=0, run=0, thread=0, moved=none, paused=none, scale=scale)
        for scale in (1.0, 2.0)
    ]
    assert [run.is_scaled for run in runs] == [False, True]
