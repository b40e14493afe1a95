"""Text: letters of a single-stroke font, sized, placed and turned."""

import numpy as np
import pytest

from stitchpath.geometry.points import path_length
from stitchpath.layouts._font import lacking_characters, text_strokes
from stitchpath.layouts.text import HEIGHT_MM, lay_text, make
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import rectangle_ground

ASCII = "".join(map(chr, range(32, 127)))


def spec(text: str, **keys: float | tuple[float, float]) -> Quilting:
    return Quilting(layout="text", text=text, **keys)  # type: ignore[arg-type]  # any key


def test_font_has_every_printable_character_of_ascii() -> None:
    assert lacking_characters(ASCII) == ()
    assert lacking_characters("a\x7f\n°é") == ("\x7f", "\n", "°", "é")


def test_every_letter_but_the_space_has_strokes_and_every_stroke_a_length() -> None:
    for character in ASCII:
        strokes = text_strokes(character, 21)
        assert bool(strokes) == (character != " "), character
        for stroke in strokes:
            steps = np.hypot(*np.diff(stroke, axis=0).T)
            assert steps.min() > 0, character


@pytest.mark.parametrize("letter", "AEFHILMNTVWXYZ")
def test_capitals_are_as_high_as_asked_for(letter: str) -> None:
    y = np.concatenate(text_strokes(letter, 35))[:, 1]
    assert (y.min(), y.max()) == pytest.approx((-17.5, 17.5))


@pytest.mark.parametrize(
    ("letter", "count"), [("L", 1), ("V", 1), ("A", 2), ("H", 3), ("T", 2), ("M", 1), ("i", 2)]
)
def test_strokes_that_meet_at_their_ends_are_one(letter: str, count: int) -> None:
    """Counted by eye on each letter: what a pen draws without being lifted."""
    assert len(text_strokes(letter, 21)) == count


def test_joining_loses_no_length_of_a_letter() -> None:
    """An N of 21 units: two posts of 21 and a slant over 14 by 21 (by hand, from the data)."""
    (stroke,) = text_strokes("N", 21)
    assert path_length(stroke) == pytest.approx(42 + np.hypot(14, 21))


def test_letters_stand_side_by_side_as_wide_as_the_font_has_them() -> None:
    """An H is 22 units wide."""
    once, twice = text_strokes("H", 21), text_strokes("HH", 21)
    for first, second in zip(once, twice[3:], strict=True):
        np.testing.assert_allclose(second - first, np.tile([22.0, 0.0], (len(first), 1)))


def test_letters_that_the_font_lacks_are_passed_over() -> None:
    assert len(text_strokes("HéH", 21)) == len(text_strokes("HH", 21))


def test_text_lies_in_the_middle_of_its_area() -> None:
    strands = make(rectangle_ground(400, 300), spec("HUH"))
    points = np.concatenate([strand.points for strand in strands])
    assert (points.min(axis=0) + points.max(axis=0)) / 2 == pytest.approx([200, 150])
    assert np.ptp(points[:, 1]) == pytest.approx(HEIGHT_MM)
    assert not any(strand.anchor for strand in strands)


def test_text_turns_about_the_place_it_is_put_at() -> None:
    upright = lay_text(spec("Ebb", at=(120.0, 80.0)), (0, 0))
    turned = lay_text(spec("Ebb", at=(120.0, 80.0), angle=90), (0, 0))
    for before, after in zip(upright, turned, strict=True):
        x, y = (before - [120, 80]).T
        np.testing.assert_allclose(after, np.column_stack([120 - y, 80 + x]), atol=1e-9)


def test_no_text_gives_no_strands() -> None:
    ground = rectangle_ground(400, 300)
    assert make(ground, spec("")) == ()
    assert make(ground, spec("   ")) == ()
