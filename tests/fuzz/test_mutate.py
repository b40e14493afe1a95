"""Changed text is made of what was there and of the words, and the same by the same chance."""

import random
import tomllib

import pytest

from tests.fuzz.first_inputs import PROJECT_WORDS, PROJECTS
from tests.fuzz.mutate import changed_text

WORDS = (b"WORD",)


def chance(seed: int) -> random.Random:
    return random.Random(seed)  # noqa: S311 - no secret


def changed(data: bytes, times: int) -> list[bytes]:
    return [changed_text(data, WORDS, chance(seed)) for seed in range(times)]


@pytest.mark.parametrize("data", [b"", b"a", b"12", b"\n\n", b"\xff\x00[= ", PROJECTS[0]])
def test_any_bytes_are_changed_and_alike_by_the_same_chance(data: bytes) -> None:
    once = changed(data, 50)
    assert once == changed(data, 50)
    assert len(data) < 2 or len(set(once)) > 5


def test_words_and_numbers_take_the_place_of_such() -> None:
    outcomes = changed(b"width = 40\n", 300)
    assert b"WORD = 40\n" in outcomes
    assert any(one.startswith(b"width = ") and b"40" not in one for one in outcomes)


def test_much_of_what_comes_out_is_still_of_its_kind() -> None:
    """Of inputs changed byte by byte hardly any is."""
    good = 0
    for seed in range(300):
        text = changed_text(PROJECTS[0], PROJECT_WORDS, chance(seed))
        try:
            tomllib.loads(text.decode())
        except ValueError:
            continue
        good += 1
    assert good > 60
