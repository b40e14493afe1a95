"""Fast machines."""

import pytest

from stitchpath.checks.speed import check
from stitchpath.model.finding import Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from tests.support.checked import plan_of


@pytest.mark.parametrize(("speed", "count"), [(600, 0), (800, 0), (801, 1), (1200, 1)])
def test_more_than_800_a_minute_are_warned_of(speed: float, count: int) -> None:
    """600 to 800 on layered work (common practice, no source)."""
    project = Project(quilt=Quilt(width=200, length=200), machine=Machine(speed=speed))
    found = list(check(plan_of(project=project)))
    assert [finding.level for finding in found] == [Level.WARNING] * count
    assert [(finding.value, finding.limit) for finding in found] == [(speed, 800)] * count
