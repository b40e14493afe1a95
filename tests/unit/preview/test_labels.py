"""Text that finds its room."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.labels import Box, Room, place_label, text_width, widened, wrapped

points = st.tuples(st.floats(0, 100), st.floats(0, 100))
SHEET = (-1000.0, -1000.0, 1000.0, 1000.0)


def overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


@given(st.lists(points, max_size=30))
def test_labels_that_need_not_be_there_never_overlap(places: list[tuple[float, float]]) -> None:
    room = Room(cell=7, within=SHEET)
    boxes = [place_label(at, (12, 5), room, gap=2, must=False) for at in places]
    kept = [box for box in boxes if box is not None]
    assert not any(overlap(a, b) for i, a in enumerate(kept) for b in kept[:i])
    assert bool(kept) == bool(places)


def test_a_label_stands_right_of_and_above_its_point_first() -> None:
    box = place_label((0, 0), (10, 4), Room(cell=5, within=SHEET), gap=1, must=False)
    assert box == (1, -5, 11, -1)


def test_a_label_that_must_be_there_is_there_where_all_is_taken() -> None:
    room = Room(cell=5, within=SHEET)
    room.take((-50, -50, 50, 50))
    assert place_label((0, 0), (10, 4), room, gap=1, must=False) is None
    assert place_label((0, 0), (10, 4), room, gap=1, must=True) == (1, -5, 11, -1)


def test_labels_stay_in_the_drawing() -> None:
    room = Room(cell=5, within=(0, 0, 50, 50))
    assert place_label((50, 0), (10, 4), room, gap=1, must=False) == (39, 1, 49, 5)
    room.take((0, 0, 50, 50))
    assert place_label((50, 0), (10, 4), room, gap=1, must=True) == (39, 1, 49, 5)
    tiny = Room(cell=5, within=(0, 0, 3, 3))
    assert place_label((0, 0), (10, 4), tiny, gap=1, must=True) == (1, -5, 11, -1)


@given(st.text(max_size=200), st.floats(20, 200))
def test_wrapped_lines_hold_every_word_and_fit(text: str, width: float) -> None:
    lines = wrapped(text, size=2.0, width=width)
    assert "".join("".join(lines).split()) == "".join(text.split())
    if text.isascii():
        assert all(text_width(line, 2.0) <= width + 1e-6 for line in lines)


def test_a_number_keeps_its_unit() -> None:
    assert wrapped("field 200 mm", size=1.0, width=6.6) == ["field", "200\u00a0mm"]


@pytest.mark.parametrize(("text", "letters"), [("縫", 1.8), ("e\u0301", 1.0), ("", 0.0)])
def test_wide_letters_count_more_and_accents_nothing(text: str, letters: float) -> None:
    assert text_width(text, 1.0) == pytest.approx(0.6 * letters)


def test_a_widened_box_grows_on_every_side() -> None:
    assert widened((0, 0, 1, 2), 3) == (-3, -3, 4, 5)
