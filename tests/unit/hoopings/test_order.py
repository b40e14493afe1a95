"""The order of hoopings, what lies in the throat, and where the ring has no cloth.

Roll diameters: half of a 60 in throw is 54 mm at 3 mm and 76 mm at 6 mm, half of a 108 in king
72 and 102 mm (worked examples of the formula, area of the roll's end = length x thickness;
geometry).
"""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.hoopings.order import LOOSE, order_places, overhang_of, roll_mm
from stitchpath.hoopings.places import Cover, Place
from stitchpath.model.hooping import Hooping, Overhang
from stitchpath.model.machine import Machine
from stitchpath.model.piece import Piece
from stitchpath.model.project import Batting, HoopingRules, Project
from stitchpath.model.quilt import Quilt
from stitchpath.pieces import make_tasks
from tests.support.covers import kind

IN = 25.4


@pytest.mark.parametrize(
    ("width_in", "thickness", "diameter"), [(30, 3, 54), (30, 6, 76), (54, 3, 72), (54, 6, 102)]
)
def test_roll_of_half_a_quilt(width_in: float, thickness: float, diameter: int) -> None:
    assert round(roll_mm(width_in * IN, thickness)) == diameter


def _project(
    *, order: str = "middle", throat: tuple[float, float] = (230, 130), width: float = 1000
) -> Project:
    return Project(
        quilt=Quilt(width=width, length=1200),
        batting=Batting(thickness=3),
        machine=Machine(throat=throat),
        hoopings=HoopingRules(order=order),  # type: ignore[arg-type]
    )


def _piece(project: Project) -> Piece:
    return make_tasks(project)[0].piece


def _grid(columns: int, rows: int, project: Project) -> Cover:
    size, one = project.quilt, kind(200, 300)
    return tuple(
        Place(
            kind=one,
            centre=(size.width * (column + 0.5) / columns, size.length * (row + 0.5) / rows),
        )
        for row in range(rows)
        for column in range(columns)
    )


def _ordered(cover: Cover, project: Project) -> list[Hooping]:
    return [hooping for _, hooping in order_places(cover, _piece(project), project)]


def test_the_half_to_the_right_is_sewn_first_then_the_piece_is_turned() -> None:
    """Columns at 100, 300, 500, 700, 900 of 1000: the middle one goes with the right half."""
    project = _project()
    hoopings = _ordered(_grid(5, 1, project), project)
    assert [(h.centre[0], h.turn_deg) for h in hoopings] == [
        (500, 0),
        (700, 0),
        (900, 0),
        (300, 180),
        (100, 180),
    ]
    sides = [h.throat.side for h in hoopings if h.throat]
    assert sides == ["right"] * 3 + ["left"] * 2


def test_what_lies_flat_in_the_throat_is_not_turned() -> None:
    """A runner of 380 mm: from the needle to its right edge there are at most 230."""
    project = _project(width=380)
    cover = (Place(kind=kind(200, 300), centre=(150, 300)),)
    (hooping,) = _ordered(cover, project)
    assert hooping.turn_deg == 0
    assert hooping.throat is not None
    assert (hooping.throat.width, hooping.throat.roll) == (230, 0)


def test_from_the_middle_outwards_distances_grow() -> None:
    project = _project()
    hoopings = _ordered(_grid(4, 4, project), project)
    for turn in (0, 180):
        away = [np.hypot(h.centre[0] - 500, h.centre[1] - 600)
                for h in hoopings if h.turn_deg == turn]  # fmt: skip
        assert np.all(np.diff(away) > -1e-6)
        assert len(away) == 8


def test_rows_go_along_the_roll_to_and_fro_and_the_roll_gets_thinner() -> None:
    project = _project(order="rows")
    hoopings = _ordered(_grid(4, 3, project), project)
    assert [h.centre for h in hoopings[:6]] == [
        (625, 200), (625, 600), (625, 1000), (875, 1000), (875, 600), (875, 200),
    ]  # fmt: skip
    assert [h.centre[0] for h in hoopings[6:]] == [375] * 3 + [125] * 3


def test_the_piece_is_rolled_up_to_the_ring() -> None:
    """500 mm lie right of the needle, half the ring of 240.15 is flat, 3 mm thick."""
    project = _project()
    (hooping,) = _ordered((Place(kind=kind(200, 300), centre=(500, 600)),), project)
    assert hooping.throat is not None
    assert hooping.throat.roll == pytest.approx(LOOSE * roll_mm(500 - 240.15 / 2, 3))
    assert hooping.throat.fits


@pytest.mark.parametrize(
    ("throat", "fits"), [((230, 30), False), ((150, 130), False), ((170, 130), True)]
)
def test_a_roll_has_to_fit_in_height_and_beside_the_ring(
    throat: tuple[float, float], fits: bool
) -> None:
    """The loose roll is 49.5 mm, and 120 mm of ring come before it."""
    project = _project(throat=throat)
    (hooping,) = _ordered((Place(kind=kind(200, 300), centre=(500, 600)),), project)
    assert hooping.throat is not None
    assert hooping.throat.fits == fits


@given(
    centres=st.lists(
        st.tuples(st.integers(0, 1000), st.integers(0, 1200)), min_size=1, max_size=12
    ),
    turned=st.booleans(),
    order=st.sampled_from(["middle", "rows"]),
)
def test_at_most_half_of_the_piece_is_in_the_throat_unless_it_lies_flat(
    centres: list[tuple[int, int]], turned: bool, order: str
) -> None:
    project = _project(order=order)
    one = kind(300, 200, turn_deg=90) if turned else kind(200, 300)
    cover = tuple(Place(kind=one, centre=centre) for centre in centres)
    half = 600 if turned else 500
    hoopings = _ordered(cover, project)
    assert sorted(h.centre for h in hoopings) == sorted(centres)
    assert [h.number for h in hoopings] == list(range(1, len(centres) + 1))
    turns = [h.turn_deg for h in hoopings]
    assert len(set(turns)) == 1 + sum(a != b for a, b in pairwise(turns))
    for hooping in hoopings:
        assert hooping.throat is not None
        assert hooping.throat.width <= max(half, project.machine.throat[0]) + 1e-9
        right = hooping.to_piece(np.array([[1.0, 0.0]]))[0] - hooping.centre
        side = {"right": (1, 0), "bottom": (0, 1), "left": (-1, 0), "top": (0, -1)}
        np.testing.assert_allclose(right, side[hooping.throat.side], atol=1e-12)


def test_a_ring_reaches_past_the_edges_near_it() -> None:
    """Field 200 x 300, ring 240.15 x 340.15, centre 100 from the left and 1100 from the top."""
    piece = _piece(_project())
    place = Place(kind=kind(200, 300), centre=(100, 1100))
    past = overhang_of(place, piece)
    assert (past.left, past.bottom) == pytest.approx((20.075, 70.075))
    assert past == Overhang(left=past.left, bottom=past.bottom)


def test_a_turned_ring_is_as_wide_as_it_was_high() -> None:
    piece = _piece(_project())
    place = Place(kind=kind(300, 200, turn_deg=90), centre=(150, 600))
    assert overhang_of(place, piece).left == pytest.approx(20.075)
