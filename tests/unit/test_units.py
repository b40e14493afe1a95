import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.units import LENGTH_PATTERN, Unit, format_length, parse_length

UNITS: st.SearchStrategy[Unit] = st.sampled_from(("mm", "cm", "in"))


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("2 1/2 in", 63.5),
        ("2-1/2 in", 63.5),
        ('1/4"', 6.35),
        ("3.5 mm", 3.5),
        ("3,5 mm", 3.5),
        ("12cm", 120.0),
        ("1½ in", 38.1),
        ("½ IN", 12.7),
        ("1 ¼ inches", 31.75),
        (".5 cm", 5.0),
        ("-1/8 in", -3.175),
        ("- ½ in", -12.7),
        ("+4 mm", 4.0),
        ("3 in.", 76.2),
        ("5''", 127.0),
        ("5″", 127.0),
        ("7 millimetres", 7.0),
        ("0,125 in", 3.175),
        ("1\N{FRACTION SLASH}4 in", 6.35),
        ("12\N{NO-BREAK SPACE}mm", 12.0),
    ],
)
def test_lengths_are_read_as_makers_write_them(text: str, mm: float) -> None:
    """The inch is 25.4 mm exactly (international yard and pound agreement, 1959)."""
    assert parse_length(text) == pytest.approx(mm, abs=1e-9)


def test_bare_number_is_in_the_given_unit() -> None:
    assert parse_length(4, unit="in") == 101.6
    assert parse_length("4", unit="cm") == 40.0
    assert parse_length(4.5) == 4.5


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "a number and a unit"),
        ("wide", "a number and a unit"),
        ("2 1/2 1/2 in", "a number and a unit"),
        ("1.5/2 in", "a number and a unit"),
        ("3 3 mm", "a number and a unit"),
        ("¼0", "a number and a unit"),
        ("1" * 5000, "a number and a unit"),
        ("8 furlongs", "`furlongs` is not a unit"),
        ("1e3 mm", "`e3 mm` is not a unit"),
        ("1/0 in", "over zero"),
        ("1,400 mm", "write `1400` or `1.400`"),
    ],
)
def test_what_is_no_length_is_told(text: str, said: str) -> None:
    with pytest.raises(ValueError, match=re.escape(said)):
        parse_length(text)


def test_whole_number_beyond_floats_is_endless() -> None:
    assert parse_length(10**400) == float("inf")
    assert parse_length(-(10**400), unit="in") == float("-inf")


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        (0.0, "in", "0 in"),
        (-0.01, "mm", "0 mm"),
        (12.7, "in", "1/2 in"),
        (25.4, "in", "1 in"),
        (-38.1, "in", "-1 1/2 in"),
        (371.04, "cm", "37.1 cm"),
    ],
)
def test_lengths_are_written_as_makers_read_them(mm: float, unit: Unit, text: str) -> None:
    assert format_length(mm, unit) == text


@given(st.floats(-20_000, 20_000), UNITS)
def test_written_length_reads_back_within_half_a_step(mm: float, unit: Unit) -> None:
    step_mm = {"mm": 0.1, "cm": 1.0, "in": 25.4 / 16}[unit]
    assert abs(parse_length(format_length(mm, unit)) - mm) <= step_mm / 2 + 1e-6


@given(st.from_regex(re.compile(LENGTH_PATTERN, re.ASCII), fullmatch=True), UNITS)
def test_pattern_for_editors_allows_only_lengths(text: str, unit: Unit) -> None:
    """But for what no pattern tells: a zero below, thousands, or a very long number."""
    try:
        assert isinstance(parse_length(text, unit=unit), float)
    except ValueError as fault:
        told = str(fault)
        assert "over zero" in told or "thousands" in told or len(text) > 60


@given(st.text(alphabet="0123456789 /-.,½¼mcin\"'", max_size=12), UNITS)
def test_pattern_for_editors_allows_every_length(text: str, unit: Unit) -> None:
    try:
        parse_length(text, unit=unit)
    except ValueError:
        return
    assert re.search(LENGTH_PATTERN, text)
