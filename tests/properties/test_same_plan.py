"""The same project gives the same plan: in one process twice, and whatever the hash seed."""

import hashlib
import os
import subprocess
import sys

import numpy as np
from hypothesis import given, settings

from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.pipeline import plan
from tests.strategies import projects
from tests.support.sewn import all_hoopings

SCRIPT = """
from stitchpath.model.project import Pocket, Project, Quilt, Quilting, RouteRules
from stitchpath.pipeline import plan
from tests.properties.test_same_plan import fingerprint
layouts = (Quilting(spacing=70), Quilting(layout="diagonal", spacing=31, margin=120))
quilt = Quilt(width=640, length=830, quilting=layouts)
rules = RouteRules(travel="retrace", cut_seconds=20.0)
pocket = Pocket(width=300, length=310)
print(fingerprint(plan(Project(quilt=quilt, pocket=pocket, route=rules))))
"""


def fingerprint(whole: Plan) -> str:
    """Return a digest of every needle point, command and finding of a plan."""
    digest = hashlib.sha256()
    for sewn in all_hoopings(whole.stages):
        digest.update(sewn.stitches.xy.tobytes())
        digest.update(sewn.stitches.op.tobytes())
        digest.update(repr(sewn.hooping).encode())
    digest.update(repr(whole.findings).encode())
    return digest.hexdigest()


@settings(deadline=None)
@given(project=projects())
def test_planning_twice_gives_the_same_stitches(project: Project) -> None:
    first, second = plan(project), plan(project)
    for one, other in zip(all_hoopings(first.stages), all_hoopings(second.stages), strict=True):
        np.testing.assert_array_equal(one.stitches.xy, other.stitches.xy)
    assert fingerprint(first) == fingerprint(second)


def test_hash_seeds_change_nothing() -> None:
    found = {
        subprocess.run(
            [sys.executable, "-c", SCRIPT],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "4711")
    }
    assert len(found) == 1
    assert len(found.pop().strip()) == 64
