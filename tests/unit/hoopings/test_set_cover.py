"""The fewest sets that hold everything."""

from itertools import combinations

import numpy as np
import pytest
from highspy import Highs
from numpy.typing import NDArray

from stitchpath.hoopings.set_cover import fewest_sets


def _random(seed: int) -> NDArray[np.bool_]:
    """Return what ten sets hold of twelve things, each thing held at least once."""
    chance = np.random.default_rng(seed)
    held = chance.random((10, 12)) < 0.3
    held[chance.integers(10, size=12), np.arange(12)] = True
    return held


def _holds_all(held: NDArray[np.bool_], chosen: list[int]) -> bool:
    return bool(held[chosen].any(axis=0).all())


@pytest.mark.parametrize("seed", range(12))
def test_no_fewer_sets_hold_everything(seed: int) -> None:
    held = _random(seed)
    found = fewest_sets(held)
    assert found.chosen is not None
    assert _holds_all(held, found.chosen.tolist())
    fewest = next(
        count
        for count in range(1, 11)
        if any(_holds_all(held, [*chosen]) for chosen in combinations(range(10), count))
    )
    assert len(found.chosen) == found.bound == fewest


def test_the_same_sets_are_chosen_again() -> None:
    chosen = [fewest_sets(_random(5)).chosen for _ in range(2)]
    assert chosen[0] is not None
    assert chosen[1] is not None
    assert chosen[0].tolist() == chosen[1].tolist()


def test_the_solver_says_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    fewest_sets(_random(5))
    assert capfd.readouterr() == ("", "")


def test_a_solver_with_more_threads_in_the_same_process_is_no_hindrance() -> None:
    other = Highs()  # type: ignore[no-untyped-call]
    for name, value in (("output_flag", False), ("threads", 2)):
        other.setOptionValue(name, value)
    other.addBinaries(3)
    other.run()
    found = fewest_sets(np.eye(3, dtype=np.bool_))
    assert found.chosen is not None
    assert found.chosen.tolist() == [0, 1, 2]
