"""Every target takes what it begins with."""

import pytest

from tests.fuzz.targets import TARGETS


@pytest.mark.parametrize("name", TARGETS)
def test_target_takes_good_inputs(name: str) -> None:
    target = TARGETS[name]
    assert target.first
    for data in target.first:
        target.check(data)
