"""Tables of fields, battings, bobbins and papers: in order, complete, true to their sources."""

import math
from itertools import pairwise

import pytest

from stitchpath.catalog.battings import BATTINGS
from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.catalog.fields import FIELDS, smallest_field
from stitchpath.catalog.papers import PAPERS
from stitchpath.project.keys import find_key


def test_fields_go_from_small_to_large() -> None:
    sides = [(field.width, field.height) for field in FIELDS]
    assert all(before < after for before, after in pairwise(sides))
    assert all(field.width <= field.height for field in FIELDS)


@pytest.mark.parametrize(
    ("width", "height", "name"),
    [
        (22, 12.7, "100x100"),
        (100, 100, "100x100"),
        (100.1, 90, "130x180"),
        (170, 120, "130x180"),  # turned
        (190, 190, "200x200"),
        (250, 400, "250x400"),
    ],
)
def test_the_smallest_field_that_holds_a_part_is_found(
    width: float, height: float, name: str
) -> None:
    field = smallest_field(width, height)
    assert field is not None
    assert field.name == name


def test_a_field_that_may_not_be_turned_has_to_be_larger() -> None:
    field = smallest_field(170, 120, may_turn=False)
    assert field is not None
    assert field.name == "200x200"


def test_what_no_field_holds_has_none() -> None:
    assert smallest_field(401, 10) is None
    assert smallest_field(260, 260) is None


def test_a_field_says_its_size_in_mm_and_what_it_is_called() -> None:
    assert FIELDS[0].summary == "100 x 100 mm, often called 4 x 4 in"


@pytest.mark.parametrize(
    ("name", "least_mm", "most_mm"),
    [
        ("cotton", 12.7, 50.8),
        ("cotton-polyester", 50.8, 76.2),
        ("wool", 76, 100),
        ("polyester", 50.8, 101.6),
        ("cotton-scrim", 203.2, 304.8),
        ("unknown", 25.4, 50.8),
    ],
)
def test_quilting_distances_are_the_lower_end_of_the_published_range(
    name: str, least_mm: float, most_mm: float
) -> None:
    """Ranges by filling: docs/sources.md, quilting distance."""
    distance = BATTINGS[name].quilting_distance_mm
    assert distance == pytest.approx(least_mm, abs=0.5)
    assert distance < most_mm


@pytest.mark.parametrize(("name", "ratio"), [("A", 1.4), ("L", 1.0), ("M", 2.0)])
def test_bobbins_hold_about_as_their_volumes_compare(name: str, ratio: float) -> None:
    """Wound volumes of the shapes against the smallest one, an axle of 6 mm taken off."""

    def volume(bobbin: str) -> float:
        shape = BOBBINS[bobbin]
        return math.pi / 4 * (shape.diameter_mm**2 - 6**2) * (shape.height_mm - 2)

    assert volume(name) / volume("L") == pytest.approx(ratio, rel=0.15)
    held = BOBBINS[name].thread_mm / BOBBINS["L"].thread_mm
    assert held == pytest.approx(ratio, rel=0.15)


def test_a4_is_the_sheet_of_iso_216() -> None:
    """A0 is a square metre; each size halves the one before; sides keep 1 : sqrt 2."""
    paper = PAPERS["a4"]
    assert paper.height / paper.width == pytest.approx(math.sqrt(2), rel=0.001)
    assert paper.width * paper.height / 1e6 == pytest.approx(1 / 16, rel=0.003)


def test_letter_is_eight_and_a_half_by_eleven_inches() -> None:
    paper = PAPERS["letter"]
    assert (paper.width / 25.4, paper.height / 25.4) == pytest.approx((8.5, 11))
    assert paper.summary == "215.9 x 279.4 mm"


def test_every_paper_can_be_chosen_in_a_project() -> None:
    paper = find_key(("sheets", "paper"))
    assert paper is not None
    assert paper.choices == tuple(PAPERS)
