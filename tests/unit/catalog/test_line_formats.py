"""The table of line formats, and the page that explains them."""

from pathlib import Path

from stitchpath.catalog.formats import FORMATS
from stitchpath.catalog.line_formats import LINE_FORMATS
from stitchpath.machine.line_write import LINES, POINTS

_PAGE = (Path(__file__).parents[3] / "docs" / "formats.md").read_text(encoding="utf-8")


def test_names_are_extensions_and_no_stitch_formats() -> None:
    assert list(LINE_FORMATS) == ["svg", "dxf", "gcode", "csv", "json"]
    assert not LINE_FORMATS.keys() & FORMATS.keys()


def test_each_has_a_writer_for_what_it_holds() -> None:
    lines = {name for name, format_ in LINE_FORMATS.items() if format_.holds == "lines"}
    assert lines == set(LINES)
    assert LINE_FORMATS.keys() - lines == set(POINTS)


def test_each_stands_on_the_page_of_formats() -> None:
    section = _PAGE.partition("## Line files")[2].partition("\n## ")[0]
    assert all(f"\n| {name} | " in section for name in LINE_FORMATS)
