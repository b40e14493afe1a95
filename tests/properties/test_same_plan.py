"""The same project gives the same plan: in one process twice, and whatever the hash seed."""

import hashlib
import os
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings

from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.pipeline import plan
from tests.strategies import projects
from tests.support.sewn import all_hoopings

SCRIPT = """
from stitchpath.model.project import Project, RouteRules
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.pipeline import plan
from tests.properties.test_same_plan import fingerprint
layouts = (Quilting(spacing=70), Quilting(layout="diagonal", spacing=31, margin=120))
quilt = Quilt(width=640, length=830, quilting=layouts)
rules = RouteRules(travel="retrace", cut_seconds=20.0)
pocket = Pocket(width=300, length=310)
print(fingerprint(plan(Project(quilt=quilt, pocket=pocket, route=rules))))
"""

EVERY_LAYOUT = """
import hashlib
from pathlib import Path
from stitchpath.layouts import layout_names, lay_lines
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pieces import make_tasks
from stitchpath.project import read_drawing
leaf = read_drawing(Path("designs/gallery/leaf.svg").read_bytes(), "leaf.svg")
digest = hashlib.sha256()
for name in layout_names():
    spec = Quilting(layout=name, spacing=20, text="Ab", svg=leaf, width=30, repeat="straight",
                    keep_out=(Shape(rectangle=(40, 40, 30, 25)),))
    (task,) = make_tasks(Project(quilt=Quilt(width=180, length=140, quilting=(spec,))))
    laid = lay_lines(task)
    for line in laid.lines:
        digest.update(line.points.tobytes() + repr(line.anchor).encode())
    digest.update(repr((laid.layouts, laid.findings)).encode())
print(digest.hexdigest())
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


@pytest.mark.parametrize("script", [SCRIPT, EVERY_LAYOUT], ids=["plan", "every layout"])
def test_hash_seeds_change_nothing(script: str) -> None:
    found = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "4711")
    }
    assert len(found) == 1
    assert len(found.pop().strip()) == 64
