"""The page round a drawing."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.entries import CENTRE, CROSS, FIELD, FIELDS
from stitchpath.preview.labels import text_width
from stitchpath.preview.legend import COLUMN, legend_height
from stitchpath.preview.scale_bar import bar_length, bar_text
from stitchpath.preview.sheet import TITLE, Caption, Sheet, lay_out
from stitchpath.units import MM_PER, Unit

ENTRIES = (CENTRE, CROSS, FIELD, FIELDS) * 3
CAPTION = Caption(
    title="A rug for the long bench", facts=("one fact " * 9, "another"), notes=("care " * 20,)
)
sides = st.floats(20, 4000)


def sheet_for(width: float, height: float) -> tuple[Sheet, float]:
    text = max(2.3, max(width, height) / 66)
    return lay_out((0, 0, width, height), CAPTION, ENTRIES, text), text


@given(sides, sides)
def test_nothing_on_the_page_covers_anything_else(width: float, height: float) -> None:
    sheet, text = sheet_for(width, height)
    high = legend_height(ENTRIES, text=text, columns=sheet.columns)
    left, top = sheet.legend
    right = left + sheet.columns * COLUMN * text
    assert left >= width or top >= height
    assert sheet.scale[1] > height
    # the scale bar, its words and the bearing stand beside the legend or above or below it
    row = sheet.scale[0] + width / 4 + 30 * text
    assert row <= left or sheet.scale[1] >= top + high or sheet.scale[1] + text <= top
    assert sheet.notes[1] >= max(sheet.scale[1] + text, top + high if top < height else 0)
    assert right <= sheet.page[2]
    assert top + high <= sheet.page[3]


@given(sides, sides)
def test_every_line_of_the_caption_fits_on_the_page(width: float, height: float) -> None:
    sheet, text = sheet_for(width, height)
    title, facts, notes = sheet.caption
    wide = sheet.page[2] - sheet.page[0] - 4 * text
    assert max(text_width(line, TITLE * text) for line in title) <= wide + 1e-6
    assert max(text_width(line, text) for line in [*facts, *notes]) <= wide + 1e-6
    head = 1.35 * text * (TITLE * len(title) + len(facts))
    assert sheet.page[1] + 2 * text + head <= 0


def test_the_legend_is_beside_an_upright_drawing_and_below_a_wide_one() -> None:
    assert sheet_for(200, 300)[0].legend[0] > 200
    assert sheet_for(900, 200)[0].legend[1] > 200
    assert sheet_for(900, 200)[0].columns > 1


@given(st.floats(1, 5000), st.sampled_from(list(MM_PER)))
def test_a_scale_bar_fits_beside_its_words(width: float, unit: Unit) -> None:
    length = bar_length(width, unit)
    assert length <= max(width / 4, 25.4 / 8)
    # From memory: a step of a ruler is at most 2.5 times the one before; inches go by 3.
    assert length >= min(width / 12.5, bar_length(1e9, unit))


@pytest.mark.parametrize("unit", list(MM_PER))
def test_a_scale_bar_says_its_length_in_mm(unit: Unit) -> None:
    for width in np.geomspace(5, 5000, 40):
        length = bar_length(float(width), unit)
        words = bar_text(length, unit)
        assert float(words.removesuffix(" mm").split("= ")[-1]) == pytest.approx(
            length, abs=1e-3
        )
