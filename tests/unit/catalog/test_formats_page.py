"""docs/formats.md says what the table of formats says."""

from pathlib import Path

import pytest

from stitchpath.catalog.formats import FORMATS

_ROOT = Path(__file__).parents[3]
_PAGE = (_ROOT / "docs" / "formats.md").read_text(encoding="utf-8")


def _row(title: str) -> list[str]:
    (line,) = [line for line in _PAGE.splitlines() if line.startswith(f"| {title} |")]
    return [cell.strip() for cell in line.strip("|").split("|")[1:]]


def _or_unknown(value: int | None) -> str:
    return "no limit known" if value is None else f"{value:,}"


def test_columns_are_the_formats_in_order() -> None:
    header = next(line for line in _PAGE.splitlines() if line.startswith("| | dst"))
    assert [cell.split()[0] for cell in header.strip("|").split("|")[1:]] == list(FORMATS)


@pytest.mark.parametrize(
    ("title", "cells"),
    [
        (
            "longest stitch along x or y, mm",
            [f"{format_.longest_step_mm:.1f}" for format_ in FORMATS.values()],
        ),
        ("most pauses", [_or_unknown(format_.most_pauses) for format_ in FORMATS.values()]),
        (
            "farthest from the centre, m",
            [f"{format_.farthest_units / 10_000:.5g}" for format_ in FORMATS.values()],
        ),
        (
            "most stitches, moves and cuts",
            [_or_unknown(format_.most_records) for format_ in FORMATS.values()],
        ),
        (
            "most stitches without a break",
            [_or_unknown(format_.most_in_a_run) for format_ in FORMATS.values()],
        ),
        (
            "name inside the file",
            [
                f"{format_.name_length} characters" if format_.name_length else "none"
                for format_ in FORMATS.values()
            ],
        ),
    ],
)
def test_row_agrees_with_the_table(title: str, cells: list[str]) -> None:
    assert _row(title) == cells


def test_row_of_colours_agrees_with_the_table() -> None:
    stored = [cell != "none" for cell in _row("colours")]
    assert stored == [format_.stores_colour for format_ in FORMATS.values()]


@pytest.mark.parametrize(
    "path",
    [
        "stitchpath/catalog/formats.py",
        "tests/support/dst_record.py",
        "tests/support/exp_record.py",
    ],
)
def test_named_file_is_there(path: str) -> None:
    assert f"`{path}`" in _PAGE
    assert (_ROOT / path).is_file()
