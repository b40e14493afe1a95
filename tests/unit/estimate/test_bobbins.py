"""Bobbins: whole ones, a tenth of each left unused (common practice, no source)."""

import pytest

from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.estimate import count_bobbins


@pytest.mark.parametrize("bobbin", BOBBINS)
def test_a_bobbin_is_changed_before_it_runs_out(bobbin: str) -> None:
    usable = 0.9 * BOBBINS[bobbin].thread_mm
    assert count_bobbins(usable, bobbin) == 1
    assert count_bobbins(usable + 1, bobbin) == 2
    assert count_bobbins(5 * usable - 1, bobbin) == 5


def test_no_thread_takes_no_bobbin() -> None:
    assert count_bobbins(0, "M") == 0
