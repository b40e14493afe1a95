"""Threads in pictures: a design's later colours are drawn as they are sewn."""

import numpy as np
import pytest

from stitchpath.model.design import Design
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.thread import ThreadPair
from stitchpath.pipeline import plan
from stitchpath.preview import draw_hooping, draw_stage
from stitchpath.preview.colours import CLOTH, DARK_LAY, UNTOLD
from tests.support.designs import stitched
from tests.support.svg_reader import SVG, layer, path_in, polylines, texts

STAGE = ThreadPair(top="#2f5f63", bobbin="#e7dcc4")
SHAPE = ((0, 0), (30, 0), (60, 0), (90, 0), (120, 0))


def planned(*colours: str, basted: bool = False) -> Plan:
    """Return a quilt with lines and a design of three colours, side by side."""
    steps = [(x, y + 100 * row) for row in range(3) for x, y in SHAPE]
    file = stitched(
        *steps[:5], "colour", *steps[5:10], "colour", *steps[10:], source="a.pes",
        colours=colours,
    )  # fmt: skip
    quilt = Quilt(
        width=200, length=200, edge_stitch=0,
        quilting=(Quilting(spacing=70, thread=STAGE),), design=(Design(file=file),),
    )  # fmt: skip
    made = Project(quilt=quilt)
    if basted:
        made = Project(quilt=quilt, hoopings=type(made.hoopings)(basting_box=True))
    return plan(made)


@pytest.mark.parametrize("basted", [False, True])
def test_each_thread_has_its_own_colour_where_it_is_sewn(*, basted: bool) -> None:
    made = planned("#102030", "#c04020", "#f8f4e0", basted=basted)
    (stage,) = made.stages
    for svg in (draw_stage(made, stage), draw_hooping(made, stage, stage.hoopings[0])):
        levels = []
        for colour in (STAGE.top, "#c04020", "#f8f4e0"):
            rows = np.vstack(path_in(svg, "thread", stroke=colour))
            levels.append(np.unique(rows[:, 1].round(1)))
        assert len(levels[0]) > 1
        assert len(levels[1]) == len(levels[2]) == 1  # each row of the design is one line
        assert levels[2] - levels[1] == pytest.approx(10)
        strokes = {path.get("stroke") for path in layer(svg, "thread").findall(f"{SVG}path")}
        assert {CLOTH, DARK_LAY} <= strokes  # the pale thread lies on dark, the others do not
        legend = " ".join(texts(svg, "legend"))
        assert "#c04020 for a.pes" in legend
        assert "#f8f4e0 for a.pes" in legend
        assert "#102030" not in svg  # its first colour is sewn with the stage's thread


def test_a_thread_whose_colour_no_file_tells_is_plain() -> None:
    made = planned()
    (stage,) = made.stages
    svg = draw_stage(made, stage)
    paths = layer(svg, "thread").findall(f"{SVG}path")
    assert sum(path.get("stroke") == UNTOLD for path in paths) == 2
    assert "another colour for a.pes" in " ".join(texts(svg, "legend"))


def test_all_needle_points_are_drawn_once() -> None:
    made = planned("#102030", "#c04020", "#f8f4e0")
    (stage,) = made.stages
    dots = layer(draw_stage(made, stage), "needle-points").findall(f"{SVG}path")
    assert sum(len(polylines(path)) for path in dots) == stage.figures.stitches
