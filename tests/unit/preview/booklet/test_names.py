"""Names in a hooping's picture keep off signs and one another."""

import numpy as np
import pytest

from stitchpath.preview.booklet.names import name_beside, taken_room
from stitchpath.preview.labels import Room

WINDOW = (-100.0, -150.0, 100.0, 150.0)
NOTHING = np.empty((0, 2))


def _place(room: Room, *at: tuple[float, float]) -> tuple[float, float]:
    return name_beside("B", at, room, off=10.0, size=9.0)


@pytest.mark.parametrize(
    ("at", "told"),
    [
        ((60, 90), (50, 80)),
        ((-60, 90), (-50, 80)),
        ((60, -90), (50, -80)),
        ((0, 0), (-10, -10)),
    ],
)
def test_name_stands_towards_the_middle(
    at: tuple[float, float], told: tuple[float, float]
) -> None:
    assert _place(taken_room(WINDOW, [], NOTHING, 9.0), at) == told


def test_name_stands_elsewhere_where_a_sign_or_a_name_is() -> None:
    room = taken_room(WINDOW, [], np.array([[50.0, 80.0]]), 9.0)
    assert _place(room, (60, 90)) == (50, 100)
    assert _place(room, (60, 90)) == (70, 80)


def test_number_goes_to_another_of_its_places_before_it_stands_outside() -> None:
    room = taken_room(WINDOW, [], np.array([[50.0, 80.0]]), 9.0)
    assert _place(room, (60, 90), (-60, 90)) == (-50, 80)


def test_name_never_lies_on_a_crosses_arms() -> None:
    room = taken_room(WINDOW, [("A", (50.0, 72.0))], NOTHING, 9.0)
    assert _place(room, (60, 90)) != (50, 80)


def test_name_without_room_stands_where_it_would() -> None:
    full = np.array([[x, y] for x in range(-100, 101, 5) for y in range(-150, 151, 5)])
    assert _place(taken_room(WINDOW, [], full.astype(np.float64), 9.0), (60, 90)) == (50, 80)
