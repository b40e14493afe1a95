"""Rules on designs: keys of rows, areas, widths, and how much it may come to."""

from typing import Any

import numpy as np
import pytest

from stitchpath.model.design import Design, DesignFile
from stitchpath.model.drawing import Drawing
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.model.thread import ThreadPair
from stitchpath.project.fault import Fault, key_path
from stitchpath.project.rules import rule_faults
from tests.support.designs import Step, stitched

FILE = stitched()
SNAKE: list[Step] = [
    (at % 50 if at // 50 % 2 == 0 else 49 - at % 50, at // 50) for at in range(1000)
]
"""A thousand stitches that cross none."""
UPRIGHT = stitched((0, 0), (0, 30), (0, 60))


def placed(*designs: Design, **quilt: Any) -> Project:  # noqa: ANN401 - any key of the quilt
    return Project(quilt=Quilt(width=900, length=1200, design=designs, **quilt))


def faults(project: Project, *written: dict[str, Any]) -> list[Fault]:
    return list(rule_faults(project, {"quilt": {"design": list(written)}}))


def told(project: Project, *written: dict[str, Any]) -> list[tuple[str, str]]:
    return [(fault.code, key_path(fault.path)) for fault in faults(project, *written)]


def test_a_design_placed_anywhere_has_no_fault() -> None:
    area = Shape(rectangle=(0, 0, 300, 300))
    rows = Design(file=FILE, repeat="brick", rows=3, pitch=(40, 40), area=area, keep_clear=3)
    assert told(placed(Design(file=FILE, at=(0, 0), angle=33, width=50), rows)) == []


def test_a_design_of_one_needle_point_has_no_fault() -> None:
    assert told(placed(Design(file=stitched((0, 0)), angle=33))) == []


@pytest.mark.parametrize("key", ["columns", "rows", "pitch", "area"])
def test_keys_of_rows_are_not_read_for_a_design_that_is_sewn_once(key: str) -> None:
    single = Design(file=FILE)
    (fault,) = faults(placed(single), {"file": "heron.exp", key: 2})
    assert (fault.code, key_path(fault.path)) == ("unused-key", f"quilt.design[0].{key}")
    assert fault.help == 'leave it out, or add `repeat = "straight"`'
    repeated = Design(file=FILE, repeat="straight", pitch=(50, 50))
    assert told(placed(repeated), {"file": "heron.exp", "repeat": "straight", key: 2}) == []


def test_area_of_a_design_is_a_sound_shape_on_its_piece() -> None:
    crossing = Shape(polygon=((0, 0), (90, 90), (90, 0), (0, 90)))
    outside = Shape(rectangle=(2000, 0, 50, 50))
    keys: dict[str, Any] = {"file": FILE, "repeat": "straight"}
    project = placed(Design(area=crossing, **keys), Design(area=outside, **keys))
    assert told(project) == [
        ("crossing-outline", "quilt.design[0].area.polygon"),
        ("area-outside", "quilt.design[1].area.rectangle"),
    ]


def test_place_and_width_belong_to_a_drawing_in_the_area_of_a_design() -> None:
    area = Shape(rectangle=(0, 0, 300, 300))
    design = Design(file=FILE, repeat="straight", area=area)
    written = {"repeat": "straight", "area": {"rectangle": [0, 0, 300, 300], "width": 50}}
    assert told(placed(design), written) == [("unused-key", "quilt.design[0].area.width")]


def test_corners_of_areas_of_designs_are_counted_too() -> None:
    ring = np.column_stack([np.linspace(0, 99, 120_000), np.zeros(120_000)])
    many = Shape(svg=Drawing(source="many.svg", strokes=(np.vstack([ring, ring[:1]]),)))
    project = placed(Design(file=FILE, repeat="straight", area=many))
    assert ("too-many-corners", "quilt.design[0].area") in told(project)


def test_a_design_without_width_cannot_be_scaled_to_one() -> None:
    assert told(placed(Design(file=UPRIGHT, width=50), Design(file=UPRIGHT))) == [
        ("drawing-has-no-width", "quilt.design[0].width")
    ]


def rows_of(file: DesignFile, columns: int) -> Project:
    design = Design(file=file, repeat="straight", columns=columns, rows=100, pitch=(9, 9))
    return placed(design)


@pytest.mark.parametrize(
    ("steps", "columns", "message"),
    [
        (SNAKE, 6, "about 600,000 needle points"),
        ([(0, 0), "cut", (9, 9)] * 10, 19, "about 20,900 runs"),
    ],
)
def test_copies_come_to_no_more_than_the_limits(
    steps: list[Step], columns: int, message: str
) -> None:
    """A thousand needle points, or eleven runs, in a hundred rows of one more than fit."""
    file = stitched(*steps)
    assert told(rows_of(file, columns - 1)) == []
    (fault,) = faults(rows_of(file, columns))
    assert (fault.code, fault.path) == ("too-many-repeats", ("quilt", "design", 0, "repeat"))
    assert message in fault.message


def test_threads_of_designs_are_those_of_their_piece() -> None:
    teal, red = ThreadPair(top="teal", bobbin="teal"), ThreadPair(top="red", bobbin="red")
    quilting = (Quilting(thread=teal),)
    same = placed(Design(file=FILE), Design(file=FILE, thread=teal), quilting=quilting)
    assert told(same) == []
    other = placed(Design(file=FILE, thread=red), quilting=quilting)
    assert told(other) == [("thread-pairs", "quilt.design[0].thread")]
    pocket = Pocket(quilting=(), design=(Design(file=FILE, thread=red),))
    assert told(Project(quilt=Quilt(width=900, length=1200), pocket=pocket)) == []


def test_a_design_larger_than_its_piece_is_refused() -> None:
    (fault,) = faults(placed(Design(file=FILE, width=901)))
    assert (fault.code, key_path(fault.path)) == ("area-outside", "quilt.design[0].file")
    assert fault.message == "the design is larger than the quilt: 901 mm x 90.1 mm"
    assert fault.label == "must be at most 900 mm x 1200 mm"
    assert told(placed(Design(file=FILE, width=901, angle=90))) == []


@pytest.mark.parametrize(
    "keys",
    [
        {"at": (-1, 600)},
        {"at": (450, 1201)},
        {"repeat": "straight", "columns": 200, "rows": 1, "pitch": (10_000, 9)},
    ],
)
def test_the_middle_of_each_copy_lies_on_the_piece(keys: dict[str, Any]) -> None:
    (fault,) = faults(placed(Design(file=FILE, **keys)))
    assert (fault.code, key_path(fault.path)) == ("area-outside", "quilt.design[0].at")
    assert fault.message == "the middle of a copy lies outside the quilt"


def test_an_area_without_room_for_a_copy_is_no_fault_but_a_finding() -> None:
    area = Shape(rectangle=(0, 0, 5, 5))
    assert told(placed(Design(file=FILE, repeat="straight", area=area))) == []


def spikes(count: int) -> DesignFile:
    """Return a design of stitches to and fro that all cross one another."""
    return stitched(*[(0, at) if at % 2 else (400, count - at) for at in range(count + 1)])


def test_stitches_of_designs_do_not_all_cross_one_another() -> None:
    """200 stitches through one place make 40,000 pairs; 40 copies, four deep, 7,100,000."""
    star = spikes(200)
    keys: dict[str, Any] = {"file": star, "repeat": "straight", "rows": 1, "pitch": (9, 90)}
    assert told(placed(Design(columns=10, **keys))) == []
    (fault,) = faults(placed(Design(columns=40, **keys)))
    assert (fault.code, key_path(fault.path)) == ("too-many-places", "quilt.design[0].file")
    apart = keys | {"pitch": (45, 90)}
    assert told(placed(Design(columns=15, **apart))) == []


def test_designs_that_lie_on_one_another_meet_each_other_too() -> None:
    star = spikes(400)
    few = placed(*[Design(file=star)] * 2)
    many = placed(*[Design(file=star)] * 40)
    assert told(few) == []
    assert [code for code, _ in told(many)] == ["too-many-places"]
