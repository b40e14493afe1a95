"""The quilt that most benchmarks take: planned once for all of them."""

import pytest

from stitchpath.model.plan import Plan
from stitchpath.model.project import Project, Quilt, Quilting
from stitchpath.pipeline import plan

SIDE_MM = 108 * 25.4


@pytest.fixture(scope="session")
def king() -> Plan:
    """Give a king-size quilt, 108 x 108 in, half-inch crosshatch at 3 mm."""
    layout = Quilting(layout="crosshatch", spacing=12.7, stitch_length=3.0)
    return plan(Project(quilt=Quilt(width=SIDE_MM, length=SIDE_MM, quilting=(layout,))))
