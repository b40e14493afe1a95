"""Points in discs, counted one by one."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.crowding import crowded_places, disc_counts, places_of
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import GRID_MM


def _by_hand(points: Points, disc_mm: float, most: int) -> dict[tuple[float, float], int]:
    """Return each crowded place with its count, distances taken one by one, in tenths."""
    units = np.rint(points / GRID_MM)
    apart = ((units[:, None] - units[None]) ** 2).sum(axis=2)
    counts = (apart <= round(disc_mm / 2 / GRID_MM) ** 2).sum(axis=1)
    return {
        (round(x * GRID_MM, 3), round(y * GRID_MM, 3)): int(count)
        for (x, y), count in zip(units.tolist(), counts.tolist(), strict=True)
        if count > most
    }


@given(
    seed=st.integers(0, 10_000),
    count=st.integers(0, 120),
    side=st.sampled_from([0.05, 1.0, 4.0, 12.0]),
    most=st.integers(1, 8),
    disc_mm=st.sampled_from([0.4, 1.0, 2.0]),
)
def test_crowded_places_are_those_counted_one_by_one(
    seed: int, count: int, side: float, most: int, disc_mm: float
) -> None:
    points = np.random.default_rng(seed).uniform(-side, side, (count, 2))
    found = crowded_places(points, disc_mm=disc_mm, most=most)
    told = {
        (round(x, 3), round(y, 3)): count
        for (x, y), count in zip(found.xy.tolist(), found.counts.tolist(), strict=True)
    }
    assert told == _by_hand(points, disc_mm, most)


def test_a_disc_holds_its_own_edge() -> None:
    """0.5 mm apart is within a disc of 1 mm round either; 0.6 mm is not."""
    for apart, crowded in ((0.5, 2), (0.6, 0)):
        row = np.array([[7.0, -3.0], [7.0 + apart, -3.0]])
        assert len(crowded_places(row, disc_mm=1.0, most=1).keys) == crowded


def test_points_of_one_place_are_counted_each() -> None:
    found = crowded_places(np.full((50_000, 2), 12.34), disc_mm=1.0, most=4)
    assert found.counts.tolist() == [50_000]
    assert found.xy.tolist() == [[12.3, 12.3]]


def test_among_none_there_is_none() -> None:
    one, none = places_of(np.zeros((1, 2))), places_of(np.zeros((0, 2)))
    assert disc_counts(one, none, disc_mm=1.0).tolist() == [0]
    assert disc_counts(none, one, disc_mm=1.0).tolist() == []
    assert len(crowded_places(np.zeros((0, 2)), disc_mm=1.0, most=1).keys) == 0


def test_a_count_that_a_byte_would_lose_is_found() -> None:
    """256 at one place, and 64 at each of four: of both a byte would hold nothing."""
    for at in ([[5.0, 5.0]] * 256, [[x, y] for x in (5.0, 5.4) for y in (5.0, 5.4)] * 64):
        found = crowded_places(np.array(at), disc_mm=1.4, most=100)
        assert found.counts.max() == 256
