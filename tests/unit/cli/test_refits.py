"""A file of refits: what is none is refused, whatever is wrong with it."""

import json
from typing import Any, Final

import pytest

from stitchpath.cli.refits import read_refits
from stitchpath.errors import StitchpathError

REFIT: Final[dict[str, Any]] = {
    "stage": "quilt",
    "hooping": 1,
    "file": "a.dst",
    "field": [200, 300],
    "planned_centre": [1, 2],
    "planned_turn": 90,
    "centre": [1.5, 2],
    "turn": 90.2,
    "scale": 1,
    "marks": [{"name": "A", "piece": [1, 2], "field": [3, 4]}],
}
NUMBERS: Final = ("NaN", "-Infinity", "1e400", "-1e308", "100001", "9" * 5000)


def file_with(more: dict[str, Any], number: str) -> bytes:
    """Return a file of one refit, `number` in the place of every null."""
    data = {"schema": "stitchpath-refits-1", "refits": [REFIT | more]}
    return json.dumps(data).replace("null", number).encode()


def test_good_file_is_read() -> None:
    (refit,) = read_refits(file_with({"turn": None}, "-12.5"), "a.refits.json")
    assert (refit.stage, refit.number, refit.turn_deg) == ("quilt", 1, -12.5)
    assert refit.marks[0].piece == (1, 2)


@pytest.mark.parametrize("number", NUMBERS)
@pytest.mark.parametrize(
    "more",
    [
        {"hooping": None},
        {"field": [None, 300]},
        {"planned_centre": [1, None]},
        {"planned_turn": None},
        {"centre": [None, 2]},
        {"turn": None},
        {"scale": None},
        {"marks": [{"name": "A", "piece": [None, 2], "field": [3, 4]}]},
        {"marks": [{"name": "A", "piece": [1, 2], "field": [3, None]}]},
    ],
)
def test_numbers_that_no_refit_has_are_told(more: dict[str, Any], number: str) -> None:
    with pytest.raises(StitchpathError, match=r"`a\.refits\.json` is not a file of refits"):
        read_refits(file_with(more, number), "a.refits.json")
