"""The page on colours, marks and sizes says what the code does."""

import re
from pathlib import Path

from stitchpath.preview import colours, look, sewing_layers, sheet, stage_picture
from stitchpath.preview.ramp import STEPS

PAGE = (Path(__file__).parents[3] / "docs" / "visual-language.md").read_text(encoding="utf-8")


def test_every_colour_of_the_page_is_the_colour_of_that_name() -> None:
    rows = re.findall(r"^\| ([a-z ]+) \| `(#[0-9a-f]{6})` \|", PAGE, re.MULTILINE)
    named = {
        name.lower().replace("_", " "): value
        for name, value in vars(colours).items()
        if isinstance(value, str) and value.startswith("#")
    }
    assert dict(rows) == named


def test_the_page_states_the_limits_of_the_code() -> None:
    assert STEPS == 8
    assert "eight steps at most" in PAGE
    assert f"{stage_picture.MOST_NEEDLE_POINTS:,} stitches" in PAGE
    assert f"{stage_picture.MOST_NUMBERED_RUNS:,} runs" in PAGE
    assert f"{stage_picture.MOST_JOINS:,} joins" in PAGE
    assert stage_picture.SIGNS_ACROSS_FIELD == 12
    assert "a twelfth of a field" in PAGE
    assert f"title {sheet.TITLE}, text 1, numbers {sewing_layers.NUMBER_SHARE}" in PAGE
    assert f"1/{round(1 / look.TEXT_SHARE)} of the drawing" in PAGE
    assert f"at least {look.LEAST_TEXT_MM} mm" in PAGE


def test_every_colour_of_the_night_is_the_colour_of_that_name() -> None:
    rows = re.findall(
        r"^\| ([a-z ]+) \| `#[0-9a-f]{6}` \| `(#[0-9a-f]{6})` \|$", PAGE, re.MULTILINE
    )
    assert {
        name.removesuffix(" ink") if name != "ink" else name: value for name, value in rows
    } == colours.NIGHT
