"""What `make` writes: the same bytes, whoever makes them."""

from typing import Literal

import pytest

from stitchpath.cli.outputs import BOOKLET, PLAN, TEMPLATES, make_outputs
from stitchpath.cli.side_by_side import WORTH_SECONDS
from tests.support.plans import small_plan


@pytest.mark.parametrize(("way", "threads"), [("fork", 1), ("spawn", 2)])
def test_outputs_are_the_same_by_one_process_and_by_two(
    way: Literal["fork", "spawn"], threads: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("threading.active_count", lambda: threads)
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0, 1})
    monkeypatch.setitem(WORTH_SECONDS, way, float("inf"))
    one_by_one: list[int] = []
    alone = make_outputs(small_plan(), on_made=one_by_one.append)
    monkeypatch.setitem(WORTH_SECONDS, way, 0.0)
    two_by_two: list[int] = []
    together = make_outputs(small_plan(), on_made=two_by_two.append)
    assert together == alone
    assert {PLAN, TEMPLATES, BOOKLET, "preview/quilt-04.svg"} <= alone.keys()
    assert set(one_by_one) == {1}
    assert max(two_by_two) > 1
    assert sum(two_by_two) == len(one_by_one)
