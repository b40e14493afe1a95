"""The table of formats."""

from stitchpath.catalog.formats import FORMATS


def test_names_are_the_seven_extensions() -> None:
    assert list(FORMATS) == ["dst", "exp", "pes", "jef", "vp3", "u01", "xxx"]
    assert all(format_.suffix == f".{name}" for name, format_ in FORMATS.items())


def test_longest_step_of_dst_is_all_five_ternary_digits() -> None:
    # Source: the record's table at http://www.achatina.de/sewing/main/DST.HTM
    assert FORMATS["dst"].longest_step_units == 1 + 3 + 9 + 27 + 81
    assert FORMATS["dst"].longest_step_mm == 12.1


def test_every_format_holds_a_stitch_of_twelve_millimetres() -> None:
    # The longest that a project may ask for; a format that held less would need a check.
    assert min(format_.longest_step_mm for format_ in FORMATS.values()) > 12.0


def test_summaries_are_one_line() -> None:
    assert all(format_.summary and "\n" not in format_.summary for format_ in FORMATS.values())
