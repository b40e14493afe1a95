"""Names of placement marks give way to what is drawn along the thread."""

import numpy as np

from stitchpath.preview.colours import HOOP
from stitchpath.preview.labels import Room
from stitchpath.preview.look import choose_look
from stitchpath.preview.placement_layers import draw_cross_names
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.sewing_layers import take_run_marks
from stitchpath.preview.svg import new_drawing, written
from stitchpath.preview.trace import joined_traces, trace
from tests.support.plans import small_plan
from tests.support.svg_reader import layer, texts

QUILT = small_plan().stages[0]
LOOK = choose_look(
    Polylines.of([np.array([[0.0, 0.0], [100.0, 0.0]])]),
    longer_side_mm=200,
    widest_mark_mm=9,
    thread_colour=HOOP,
)


def _place(room: Room, at: tuple[float, float]) -> tuple[float, float]:
    drawing = new_drawing((0.0, 0.0, 400.0, 500.0))
    draw_cross_names(drawing, [("A", at)], LOOK, room)
    svg = written(drawing)
    assert texts(svg, "placement-names") == ["A"]
    (text,) = [one for one in layer(svg, "placement-names").iter() if one.tag.endswith("text")]
    return float(text.attrib["x"]), float(text.attrib["y"])


def test_name_stands_elsewhere_where_a_run_ends_beside_the_mark() -> None:
    traced = joined_traces([trace(one.stitches, runs=one.runs) for one in QUILT.hoopings])
    end = traced.last_points[0]
    at = (float(end[0] - 0.7 * LOOK.sign), float(end[1] + 0.7 * LOOK.sign))
    free, taken = (Room(cell=9.0, within=(-50.0, -50.0, 450.0, 550.0)) for _ in range(2))
    take_run_marks(traced, LOOK, taken)
    assert np.hypot(*(np.array(_place(free, at)) - end)) < LOOK.sign
    assert np.hypot(*(np.array(_place(taken, at)) - end)) > LOOK.sign


def test_numbers_find_a_marks_arms_taken() -> None:
    room = Room(cell=9.0, within=(0.0, 0.0, 200.0, 200.0))
    _place(room, (100.0, 100.0))
    arm = 0.8 * LOOK.sign
    for x, y in ((100 + arm, 100), (100 - arm, 100), (100, 100 + arm), (100, 100 - arm)):
        assert not room.is_free((x - 0.1, y - 0.1, x + 0.1, y + 0.1))
