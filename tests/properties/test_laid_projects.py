"""A project with any layouts on any shapes is refused with places, or can be planned."""

from pathlib import Path
from typing import Final

import numpy as np
import shapely
from hypothesis import event, given, settings
from hypothesis import strategies as st

from stitchpath.errors import ProjectError
from stitchpath.layouts import find_layout, layout_names
from stitchpath.model.drawing import Drawing
from stitchpath.model.line import LineKind
from stitchpath.pipeline import plan
from stitchpath.project import read_drawing, read_project

GALLERY: Final = Path(__file__).parents[2] / "designs" / "gallery"
DRAWINGS: Final = {
    path.name: read_drawing(path.read_bytes(), path.name)
    for path in sorted(GALLERY.glob("*.svg"))
}
HEAD: Final = """
[quilt]
width = 300
length = 360
[pocket]
width = 120
length = 130
quilting = []
[machine]
field = [400, 400]
"""
TIED: Final = {"svg": ("motif",), "text": ("text",)}


def sizes(low: int, high: int) -> st.SearchStrategy[str]:
    return st.integers(low, high).map(str)


def point() -> st.SearchStrategy[str]:
    return (
        st.tuples(st.integers(-50, 400), st.integers(-50, 400))
        .map(str)
        .map(lambda text: text.replace("(", "[").replace(")", "]"))
    )


SHAPES: Final = st.one_of(
    sizes(5, 200).map(lambda width: f"border = {width}"),
    st.tuples(point(), sizes(1, 400), sizes(1, 400)).map(
        lambda made: f"rectangle = [{made[0][1:-1]}, {made[1]}, {made[2]}]"
    ),
    st.lists(point(), min_size=3, max_size=6).map(
        lambda corners: f"polygon = [{', '.join(corners)}]"
    ),
    st.tuples(st.sampled_from([*DRAWINGS]), point(), sizes(1, 400)).map(
        lambda made: f'svg = "{made[0]}", at = {made[1]}, width = {made[2]}'
    ),
    st.just("footprint = true"),
).map(lambda inner: f"{{ {inner} }}")
KEYS: Final[dict[str, st.SearchStrategy[str]]] = {
    "spacing": sizes(8, 200),
    "start": st.sampled_from(['"centre"', '"edge"']),
    "angle": st.sampled_from(["0", "90", "30", "-45", "200.5"]),
    "margin": sizes(0, 60),
    "area": SHAPES,
    "keep_out": st.lists(SHAPES, max_size=2).map(lambda made: f"[{', '.join(made)}]"),
    "fit": st.sampled_from(["true", "false"]),
    "gap": sizes(2, 40),
    "count": sizes(1, 6),
    "period": sizes(10, 200),
    "amplitude": sizes(1, 60),
    "seed": sizes(0, 99),
    "text": st.text("abcHIé .", max_size=6).map(lambda text: f'"{text}"'),
    "height": sizes(3, 120),
    "svg": st.sampled_from([*DRAWINGS, "none.svg"]).map(lambda name: f'"{name}"'),
    "width": sizes(10, 200),
    "at": point(),
    "repeat": st.sampled_from(
        [f'"{name}"' for name in ("single", "straight", "half-drop", "mirrored", "border")]
    ),
    "stitch_length": st.sampled_from(["2", "2.8"]),
}
COMMON: Final = ["angle", "margin", "area", "keep_out", "fit", "stitch_length"]


@st.composite
def layouts(draw: st.DrawFn) -> str:
    """One table of a layout, most often with keys that it reads."""
    name = draw(st.sampled_from(layout_names()))
    reads = [key for key in find_layout(name).keys if key in KEYS]
    keys = draw(st.lists(st.sampled_from(sorted({*COMMON, *reads})), max_size=5, unique=True))
    keys += [key for key, needs in TIED.items() if name in needs and key not in keys]
    keys += (
        draw(st.lists(st.sampled_from(sorted(KEYS)), max_size=1)) if draw(st.booleans()) else []
    )
    lines = [f"{key} = {draw(KEYS[key])}" for key in dict.fromkeys(keys)]
    return "\n".join(["[[quilt.quilting]]", f'layout = "{name}"', *lines])


def load(name: str) -> Drawing:
    if name not in DRAWINGS:
        raise ValueError("there is no such file in the project's folder")
    return DRAWINGS[name]


@settings(deadline=None)
@given(st.lists(layouts(), min_size=1, max_size=3))
def test_project_is_refused_with_places_or_planned(tables: list[str]) -> None:
    text = HEAD + "\n".join(tables)
    try:
        project = read_project(text, load=load)
    except ProjectError as error:
        for problem in error.problems:
            assert problem.span is not None, problem
            assert problem.label, problem
            assert problem.help, problem
        return
    event("planned")
    planned = plan(project)
    piece = shapely.box(-0.01, -0.01, 300.01, 360.01)
    for stage in planned.stages:
        for line in stage.lines:
            if line.kind is LineKind.QUILTING:
                assert np.isfinite(line.points).all()
                assert piece.covers(shapely.LineString(line.points))
