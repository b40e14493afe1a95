"""Rules on motifs and texts, and on the keys that layouts read."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from stitchpath.layouts import find_layout, layout_names
from stitchpath.model.drawing import Drawing
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.project.amount_rules import MOST_STITCHES
from stitchpath.project.fault import Fault, key_path
from stitchpath.project.layout_rules import COMMON_KEYS
from stitchpath.project.rules import rule_faults
from stitchpath.project.size_rules import MOST_COPIES

BOX = Drawing(
    source="box.svg", strokes=(np.array([[0.0, 0], [20, 0], [20, 10], [0, 10], [0, 0]]),)
)
UPRIGHT = Drawing(source="reed.svg", strokes=(np.array([[5.0, 0], [5, 60]]),))


def laid(**spec: Any) -> Project:  # noqa: ANN401 - any key of a layout
    """Return a quilt of 900 by 1200 mm without an edge line, with one layout."""
    quilt = Quilt(width=900, length=1200, edge_stitch=0, quilting=(Quilting(**spec),))
    return Project(quilt=quilt)


def faults(project: Project, data: dict[str, Any] | None = None) -> list[Fault]:
    return list(rule_faults(project, data or {}))


def told(project: Project, data: dict[str, Any] | None = None) -> list[tuple[str, str]]:
    return [
        (fault.code, key_path(fault.path).removeprefix("quilt.quilting[0]."))
        for fault in faults(project, data)
    ]


def written(**spec: Any) -> dict[str, Any]:  # noqa: ANN401 - any key of a layout
    return {"quilt": {"quilting": [spec]}}


@pytest.mark.parametrize("name", layout_names())
def test_layouts_read_only_keys_of_a_quilting_table(name: str) -> None:
    assert set(find_layout(name).keys) <= set(Quilting.__dataclass_fields__)


def test_common_keys_are_read_by_every_layout() -> None:
    assert set(Quilting.__dataclass_fields__) >= COMMON_KEYS
    spec = {"margin": 5, "angle": 45, "fit": True, "fit_limit": 0.2, "stitch_length": 3}
    assert told(laid(**spec), written(**spec)) == []


def test_key_that_is_not_read_is_told_only_where_it_is_written() -> None:
    project = laid(layout="parallel", amplitude=20)
    assert told(project) == []
    (fault,) = faults(project, written(layout="parallel", amplitude=20))
    assert (fault.code, fault.path[-1], fault.at) == ("unused-key", "amplitude", "key")
    assert fault.notes == ("it reads `spacing` and `start`, and what all layouts do",)


def test_plain_start_is_written_for_any_layout() -> None:
    spec = {"layout": "motif", "svg": BOX, "start": "centre"}
    assert told(laid(**spec), written(**spec)) == []
    text = {"layout": "text", "text": "Ebb", "start": "edge"}
    assert told(laid(**text), written(**text)) == [("unused-key", "start")]


def test_place_and_width_belong_to_a_drawn_shape() -> None:
    at, width = (100.0, 100.0), 50.0
    plain: dict[str, Any] = {"rectangle": [0, 0, 99, 99], "at": at, "width": width}
    drawn: dict[str, Any] = {"svg": BOX, "at": at, "width": width}
    project = laid(keep_out=(Shape(**plain), Shape(**drawn)))
    assert told(project, written(keep_out=[plain, drawn])) == [
        ("unused-key", "keep_out[0].at"),
        ("unused-key", "keep_out[0].width"),
    ]


@pytest.mark.parametrize(("angle", "fine"), [(0, 1), (90, 1), (-90, 1), (180, 1), (45, 0)])
def test_diagonal_takes_its_two_angles(angle: float, fine: int) -> None:
    expected = [] if fine else [("angle-not-taken", "angle")]
    assert told(laid(layout="diagonal", angle=angle)) == expected


def test_motif_needs_a_drawing_and_text_a_text() -> None:
    assert told(laid(layout="motif")) == [("missing-key", "svg")]
    assert told(laid(layout="text", text="  ")) == [("missing-key", "text")]
    assert told(laid(layout="motif", svg=BOX)) == []
    assert told(laid(layout="text", text="Ebb")) == []


def test_upright_line_has_no_width_to_scale() -> None:
    assert told(laid(layout="motif", svg=UPRIGHT)) == []
    assert told(laid(layout="motif", svg=UPRIGHT, width=50)) == [
        ("drawing-has-no-width", "width")
    ]
    shape = Shape(svg=UPRIGHT, width=50)
    codes = [code for code, _ in told(laid(keep_out=(shape,)))]
    assert codes == ["drawing-has-no-width", "no-closed-shape"]


def test_letters_that_the_font_lacks_are_named() -> None:
    (fault,) = faults(laid(layout="text", text="Ålöüßéè\x07"))
    assert fault.code == "not-in-font"
    assert "`Å`, `ö`, `ü`, `ß`, `é` and 2 more" in fault.message


def test_text_is_large_enough_for_three_stitches() -> None:
    """Shortest is the dot of the i: a square on its corner, 2 units wide.

    Round it are 4 x sqrt(2) units; a capital is 21 units high (by hand, from the font's data).
    """
    dot = 4 * np.sqrt(2) / 21
    least = 3 * 2.0 / dot
    fine = {"layout": "text", "text": "i", "stitch_length": 2.0}
    assert told(laid(height=least + 0.01, **fine)) == []
    (fault,) = faults(laid(height=least - 0.01, **fine))
    assert (fault.code, fault.path[-1]) == ("text-too-small", "height")
    assert fault.label == f"must be at least {np.ceil(least):.0f} mm"


def test_text_lies_within_its_area() -> None:
    """An H of 42 mm is 28 mm wide between its posts (14 of 21 units of the height)."""
    spec: dict[str, Any] = {"layout": "text", "text": "H", "height": 42.0}
    assert told(laid(area=Shape(rectangle=(100, 100, 28, 42)), **spec)) == []
    assert told(laid(area=Shape(rectangle=(100, 100, 27.9, 42)), **spec)) == [
        ("text-does-not-fit", "text")
    ]
    assert told(laid(area=Shape(rectangle=(100, 100, 28, 42)), margin=1, **spec)) == [
        ("text-does-not-fit", "text")
    ]
    assert told(laid(area=Shape(rectangle=(100, 100, 42, 28)), angle=90, **spec)) == []
    assert told(laid(at=(10, 100), **spec)) == [("text-does-not-fit", "text")]


@pytest.mark.parametrize(
    ("corners", "code"),
    [
        (((0, 0), (0, 8), (8, 0), (-1, 1)), "crossing-outline"),
        (((2000, 0), (2000, 80), (2080, 0)), "area-outside"),
    ],
)
def test_text_is_not_looked_for_on_an_area_that_is_none(
    corners: tuple[tuple[float, float], ...], code: str
) -> None:
    area = Shape(polygon=corners)
    assert told(laid(layout="text", text="H", at=(0, 0), area=area)) == [(code, "area.polygon")]


def test_text_of_the_pocket_lies_inside_its_seam() -> None:
    """Ten H of 42 mm take 9 x 44 + 28 = 424 mm, and both seams 9.525 mm."""
    wide = Quilting(layout="text", text="HHHHHHHHHH", height=42.0)
    project = Project(
        quilt=Quilt(width=900, length=1200), pocket=Pocket(width=434, quilting=(wide,))
    )
    assert told(project) == []
    narrow = Project(
        quilt=Quilt(width=900, length=1200), pocket=Pocket(width=433, quilting=(wide,))
    )
    assert told(narrow) == [("text-does-not-fit", "pocket.quilting[0].text")]


def test_copies_are_counted_over_all_motifs() -> None:
    """Copies of 4 x 2 mm on 900 x 1200 mm: (900 / 4 + 2) (1200 / 2 + 2) = 136,654."""
    spec = {"layout": "motif", "svg": BOX, "repeat": "straight"}
    (fault,) = [f for f in faults(laid(width=4, **spec)) if f.code == "too-many-repeats"]
    assert fault.path[-1] == "repeat"
    assert "about 140,000 times" in fault.message
    assert f"{MOST_COPIES:,}" in fault.label
    assert told(laid(width=8, **spec)) == []
    assert told(laid(width=4, area=Shape(rectangle=(9, 9, 300, 300)), **spec)) == []
    assert told(laid(width=1, layout="motif", svg=BOX, repeat="border")) == []


def test_points_of_all_copies_are_counted() -> None:
    busy = Drawing(source="busy.svg", strokes=(np.random.default_rng(4).random((4000, 2)),))
    codes = [
        code for code, _ in told(laid(layout="motif", svg=busy, width=30, repeat="half-drop"))
    ]
    assert "too-many-repeats" in codes


def huge(**spec: Any) -> Project:  # noqa: ANN401 - any key of a layout
    quilting = (Quilting(stitch_length=2, **spec),)
    return Project(
        quilt=Quilt(width=10_000, length=10_000, quilting=quilting),
        machine=Machine(field=(1000, 1000)),
    )


def test_needle_points_are_counted_on_the_area() -> None:
    """2 x 1000 x 1000 / (0.1 x 2): a tenth of the side takes a hundredth of the points."""
    area = Shape(rectangle=(9000, 9000, 3000, 1000))
    assert told(huge(spacing=1, area=area)) == []
    assert [code for code, _ in told(huge(spacing=9))] == ["too-many-stitches"]


@pytest.mark.parametrize(
    "spec",
    [
        {"layout": "serpentine", "spacing": 50, "period": 2, "amplitude": 500},
        {"layout": "serpentine", "spacing": 30, "period": 2, "amplitude": 0.1},
        {"layout": "broken-plaid", "spacing": 400, "count": 500},
    ],
)
def test_waves_and_groups_are_counted(spec: dict[str, Any]) -> None:
    (fault,) = faults(huge(**spec))
    assert fault.code == "too-many-stitches"
    assert f"{MOST_STITCHES:,}" in fault.label


def test_a_motif_whose_strokes_cross_everywhere_is_refused() -> None:
    """Of n random segments in a square, boxes of two meet in 4 of 9 cases (geometry)."""
    scribble = Drawing(
        source="knot.svg", strokes=(100 * np.random.default_rng(4).random((5000, 2)),)
    )
    spec = Quilting(layout="motif", svg=scribble)
    (fault,) = faults(Project(quilt=Quilt(width=300, length=300, quilting=(spec,))))
    assert fault.code == "too-many-places"
    assert key_path(fault.path) == "quilt.quilting[0].repeat"
    once = replace(spec, svg=replace(scribble, strokes=(scribble.strokes[0][:2000],)))
    assert told(Project(quilt=Quilt(width=300, length=300, quilting=(once,)))) == []
    rows = replace(once, repeat="straight", width=30)
    assert told(Project(quilt=Quilt(width=300, length=300, quilting=(rows,)))) == [
        ("too-many-places", "repeat")
    ]


def test_rays_of_a_whole_area_are_not_counted_for_each_spacing() -> None:
    assert told(huge(layout="radial", count=200)) == []


def test_footprint_and_drawing_are_areas_too() -> None:
    for shape in (Shape(footprint=True), Shape(svg=BOX, width=100)):
        quilt = Quilt(width=9000, length=9000, quilting=(Quilting(spacing=5, area=shape),))
        project = Project(quilt=quilt, pocket=Pocket(), machine=Machine(field=(1000, 1000)))
        assert told(project) == []
