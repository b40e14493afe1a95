import re

import pytest
import webcolors
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError

from stitchpath.model.quantities import SHARE_PATTERN, Colour, Length, Name, Share

LENGTH: TypeAdapter[float] = TypeAdapter(Length)
SHARE: TypeAdapter[float] = TypeAdapter(Share)
COLOUR: TypeAdapter[str] = TypeAdapter(Colour)
NAME: TypeAdapter[str] = TypeAdapter(Name)


def test_length_takes_its_unit_from_the_context() -> None:
    assert LENGTH.validate_python(2, context={"units": "in"}) == 50.8
    assert LENGTH.validate_python("2 mm", context={"units": "in"}) == 2.0
    assert LENGTH.validate_python(2) == 2.0


@pytest.mark.parametrize("value", [True, None, [1], "x", float("nan"), float("inf"), 10**400])
def test_length_refuses_what_is_no_finite_length(value: object) -> None:
    with pytest.raises(ValidationError):
        LENGTH.validate_python(value)


@pytest.mark.parametrize(
    ("value", "share"), [("3 %", 0.03), ("3%", 0.03), (3, 0.03), ("2,5", 0.025), (0.5, 0.005)]
)
def test_bare_share_means_percent_in_a_file(value: object, share: float) -> None:
    assert SHARE.validate_python(value, context={"units": "mm"}) == share


def test_bare_share_is_a_fraction_in_python() -> None:
    assert SHARE.validate_python(0.03) == 0.03
    assert SHARE.validate_python("3 %") == 0.03


@pytest.mark.parametrize(
    "value", [False, None, "", "%", "nan", "1_0", "three", 10**400, -(10**400)]
)
def test_share_refuses_what_is_no_percentage(value: object) -> None:
    with pytest.raises(ValidationError):
        SHARE.validate_python(value, context={"units": "mm"})


@given(st.from_regex(re.compile(SHARE_PATTERN, re.ASCII), fullmatch=True))
def test_pattern_for_editors_allows_only_shares(text: str) -> None:
    number = float(text.replace("%", "").replace(",", "."))
    if abs(number) < float("inf"):
        assert SHARE.validate_python(text) == pytest.approx(number / 100, abs=1e-8)


def test_colours_are_names_of_css_or_hex() -> None:
    """The names and values of CSS Color Module level 3, section 4.3, by way of webcolors."""
    assert COLOUR.validate_python("Teal") == webcolors.name_to_hex("teal") == "#008080"
    assert COLOUR.validate_python("#ABCDEF") == "#abcdef"
    assert COLOUR.validate_python("#abc") == "#aabbcc"


@pytest.mark.parametrize("value", [7, None, "", "tomatoe", "#12345", "a" * 1000])
def test_colour_refuses_what_is_none(value: object) -> None:
    with pytest.raises(ValidationError):
        COLOUR.validate_python(value)


def test_name_is_kept_as_typed() -> None:
    assert NAME.validate_python("Möwenfels — 縁取り 🧵") == "Möwenfels — 縁取り 🧵"


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (7, "is not text"),
        (" ", "is empty"),
        ("a" * 121, "has 121 characters"),
        ("a\nb", "U+000A, at its place 2"),
        ("\N{RIGHT-TO-LEFT OVERRIDE}a", "U+202E, at its place 1"),
        ("\N{LINE SEPARATOR}", "is empty"),
    ],
)
def test_name_refuses_what_breaks_a_line(value: object, said: str) -> None:
    with pytest.raises(ValidationError, match=re.escape(said)):
        NAME.validate_python(value)
