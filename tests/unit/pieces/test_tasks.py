"""What each stage is asked to sew, and where the pocket lies."""

import numpy as np
import pytest

from stitchpath.model.line import LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.project import Batting, Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt, Quilting
from stitchpath.model.thread import ThreadPair
from stitchpath.pieces import make_corner_task, make_tasks
from tests.support.lines import assert_same_line

QUILT = Quilt(width=1100, length=1450, edge_stitch=8)
POCKET = Pocket(width=400, length=410, raise_=10, mouth_stitch=6, seam=PocketSeam(inset=5))


def test_without_a_pocket_there_is_the_quilt_alone() -> None:
    (task,) = make_tasks(Project(quilt=QUILT))
    assert task.name == "quilt"
    assert task.piece.shadow is None
    assert task.piece.centre == (550, 725)


def test_the_pocket_is_quilted_first_then_the_quilt_then_the_seam() -> None:
    tasks = make_tasks(Project(quilt=QUILT, pocket=POCKET))
    assert [task.name for task in tasks] == ["pocket", "quilt", "seam"]
    assert [task.piece.name for task in tasks] == ["pocket", "quilt", "quilt"]


def test_the_pocket_lies_centred_above_the_bottom_edge_its_mouth_towards_the_middle() -> None:
    """Across: (1100 - 400) / 2 = 350. Foot: 1450 - 10 = 1440; mouth: 1440 - 410 = 1030."""
    _, _, seam = make_tasks(Project(quilt=QUILT, pocket=POCKET))
    assert seam.piece.shadow is not None
    assert_same_line(
        seam.piece.shadow, [(350, 1030), (750, 1030), (750, 1440), (350, 1440), (350, 1030)]
    )
    (line,) = seam.given
    assert_same_line(
        [line.points.min(axis=0), line.points.max(axis=0)], [(355, 1035), (745, 1435)]
    )


def test_the_quilts_quilting_lies_inside_its_edge_line() -> None:
    (task,) = make_tasks(Project(quilt=QUILT))
    assert list(task.area.bounds) == [8, 8, 1092, 1442]
    assert [line.kind for line in task.given] == [LineKind.EDGE]
    assert list(task.sewn_edges.bounds) == [0, 0, 1100, 1450]


def test_without_an_edge_line_the_quilting_reaches_the_finished_edge() -> None:
    (task,) = make_tasks(Project(quilt=Quilt(width=500, length=600, edge_stitch=0)))
    assert not task.given
    assert list(task.area.bounds) == [0, 0, 500, 600]


def test_the_pockets_quilting_ends_on_its_mouth_line_and_where_the_seam_will_run() -> None:
    pocket, _, _ = make_tasks(Project(quilt=QUILT, pocket=POCKET))
    assert list(pocket.area.bounds) == [5, 6, 395, 405]
    (mouth,) = pocket.given
    assert mouth.kind is LineKind.MOUTH
    assert_same_line(mouth.points, [(5, 6), (395, 6)])


def test_without_a_mouth_line_the_pockets_quilting_reaches_its_mouth() -> None:
    bare = Pocket(width=400, length=410, mouth_stitch=0, seam=PocketSeam(inset=5))
    pocket, _, _ = make_tasks(Project(quilt=QUILT, pocket=bare))
    assert not pocket.given
    assert list(pocket.area.bounds) == [5, 0, 395, 405]


def test_the_seam_goes_through_two_sandwiches() -> None:
    project = Project(quilt=QUILT, pocket=POCKET, batting=Batting(thickness=2.5))
    assert [task.thickness_mm for task in make_tasks(project)] == [2.5, 2.5, 5.0]


@pytest.mark.parametrize(
    ("asked", "expected"),
    [
        ("never", [False, False, False]),
        ("seam", [False, False, True]),
        ("always", [True, True, True]),
    ],
)
def test_the_bobbin_thread_is_drawn_up_where_asked_for(
    asked: str, expected: list[bool]
) -> None:
    machine = Machine.__pydantic_validator__.validate_python({"bobbin_pull_up": asked})  # type: ignore[attr-defined]
    tasks = make_tasks(Project(quilt=QUILT, pocket=POCKET, machine=machine))
    assert [task.draws_up for task in tasks] == expected


def test_threads_and_stitches_of_a_stage_come_from_its_first_layout() -> None:
    teal = ThreadPair(top="#008080")
    quilting = (Quilting(stitch_length=3.1, thread=teal), Quilting(margin=100, thread=teal))
    (task,) = make_tasks(Project(quilt=Quilt(width=900, length=900, quilting=quilting)))
    assert task.thread == teal
    assert task.given[0].stitch_mm == 3.1


def test_an_unquilted_piece_still_gets_its_edge_line() -> None:
    (task,) = make_tasks(Project(quilt=Quilt(width=900, length=900, quilting=())))
    assert not task.quilting
    assert task.thread == ThreadPair()
    assert [line.kind for line in task.given] == [LineKind.EDGE]


def test_a_corner_by_itself_lies_on_a_piece_with_room_round_it() -> None:
    seam = PocketSeam(inset=5, corner_side=22, corner_across=12)
    left = make_corner_task(seam, hand="left", thickness_mm=6, draws_up=True)
    right = make_corner_task(seam, hand="right", thickness_mm=6, draws_up=False)
    assert left.thickness_mm == 6
    assert (left.draws_up, right.draws_up) == (True, False)
    assert (left.piece.width, left.piece.length) == (32, 42)
    (line,), (mirrored,) = left.given, right.given
    assert line.points[0].tolist() == [10, 10]
    assert_same_line(mirrored.points, line.points * (-1, 1) + (32, 0))
    assert np.all(line.points >= 10)
    assert np.all(line.points <= (22, 32))
