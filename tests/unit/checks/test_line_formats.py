"""Formats of lines have no stitches, so that no check of a format's limits looks at them."""

from stitchpath.catalog.line_formats import LINE_FORMATS
from stitchpath.model.finding import Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.pipeline import plan


def test_a_project_for_a_frame_alone_is_checked_without_stitch_formats() -> None:
    machine = Machine(formats=tuple(LINE_FORMATS), longest_stitch=18.0)
    project = Project(quilt=Quilt(width=300, length=400), machine=machine)
    codes = {finding.code for finding in plan(project).findings if finding.level is Level.ERROR}
    assert not codes
