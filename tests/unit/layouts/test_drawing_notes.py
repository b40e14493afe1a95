"""What of a drawing is not sewn reaches the findings."""

import numpy as np

from stitchpath.model.drawing import Drawing
from stitchpath.model.finding import Level
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pipeline import plan

RING = np.array([[0.0, 0], [80, 0], [80, 80], [0, 0]])


def drawing(source: str, *ignored: str) -> Drawing:
    return Drawing(source=source, strokes=(RING,), ignored=ignored)


def told(*quilting: Quilting) -> list[str]:
    planned = plan(Project(quilt=Quilt(width=400, length=400, quilting=quilting)))
    found = [finding for finding in planned.findings if finding.code == "drawing-left-out"]
    assert all(finding.level is Level.NOTE for finding in found)
    assert all(finding.stage == "quilt" for finding in found)
    return [finding.text for finding in found]


def test_each_file_of_a_layout_is_told_once() -> None:
    leaf = drawing("leaf.svg", "text (1): letters are no strokes", "image (2): a picture")
    stone = drawing("stone.svg", "hidden (1): it is hidden")
    spec = Quilting(
        layout="motif",
        svg=leaf,
        area=Shape(svg=leaf, width=300),
        keep_out=(Shape(svg=stone, at=(90, 90)),),
    )
    left_out = "text (1): letters are no strokes; image (2): a picture"
    assert told(spec) == [
        f"of the drawing leaf.svg is left out: {left_out}",
        "of the drawing stone.svg is left out: hidden (1): it is hidden",
    ]


def test_drawing_that_is_sewn_whole_is_not_told() -> None:
    assert told(Quilting(layout="motif", svg=drawing("leaf.svg"))) == []
