"""The picture of one hooping."""

from dataclasses import replace
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from stitchpath.geometry.points import Points
from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import Basting
from stitchpath.preview import draw_hooping
from stitchpath.preview.colours import HOOP, INK
from tests.support.plans import FIELD, sewn_hooping, small_plan
from tests.support.svg_reader import SVG, layer, path_in, polylines, texts

PLAN = small_plan()
QUILT, SEAM = PLAN.stages
TURNED = QUILT.hoopings[3]


def test_the_thread_is_every_stitch_in_the_fields_own_frame() -> None:
    drawn = path_in(draw_hooping(PLAN, QUILT, TURNED), "thread", stroke=QUILT.thread.top)
    # Turned by 180 degrees: the field's x and y run against the piece's.
    sewn = -(TURNED.stitches.needle_points - TURNED.hooping.centre)
    assert np.abs(np.concatenate(drawn) - sewn).max() <= 0.05 + 1e-9


def test_needle_points_are_those_of_the_stitch_file() -> None:
    dots = path_in(draw_hooping(PLAN, QUILT, TURNED), "needle-points", stroke=INK)
    tenths = np.array([dot[0] for dot in dots]) * 10
    sewn = TURNED.hooping.to_field(TURNED.stitches.needle_points) * 10
    assert (np.rint(tenths) == np.rint(sewn)).all()


def test_the_field_stands_upright_around_the_origin() -> None:
    rectangle = layer(draw_hooping(PLAN, QUILT, TURNED), "field").findall(f"{SVG}path")[0]
    assert rectangle.get("stroke") == HOOP
    (corners,) = polylines(rectangle)
    assert corners.max(axis=0).tolist() == [FIELD[0] / 2, FIELD[1] / 2]
    assert corners.min(axis=0).tolist() == [-FIELD[0] / 2, -FIELD[1] / 2]


def test_what_is_seen_of_the_piece_ends_at_the_edge_of_the_drawing() -> None:
    svg = draw_hooping(PLAN, QUILT, TURNED)
    reach = FIELD[1] / 2 + 0.05 * FIELD[1]
    for name in ("piece", "pocket", "design"):
        for path in layer(svg, name).findall(f"{SVG}path"):
            assert np.abs(np.concatenate(polylines(path))).max() <= reach + 0.01


def test_the_arrow_points_to_the_top_of_the_piece() -> None:
    assert bearing(draw_hooping(PLAN, QUILT, QUILT.hoopings[0])) == pytest.approx(
        [0, -1], abs=0.02
    )
    assert bearing(draw_hooping(PLAN, QUILT, TURNED)) == pytest.approx([0, 1], abs=0.02)
    words = texts(draw_hooping(PLAN, QUILT, TURNED), "bearing")
    assert words == ["to the top of the quilt"]


def bearing(svg: str) -> Points:
    """Return the way of the arrow: from the notch at its back to its tip."""
    (head,) = polylines(layer(svg, "bearing").findall(f"{SVG}path")[-1])
    way: Points = head[1] - head[3]
    return way / np.linalg.norm(way)


def test_placement_marks_stand_where_the_field_has_them() -> None:
    svg = draw_hooping(PLAN, SEAM, SEAM.hoopings[0])
    assert texts(svg, "placement-names") == ["E", "F"]
    bars = polylines(layer(svg, "placement").findall(f"{SVG}path")[0])
    middles = [bar.mean(axis=0).tolist() for bar in bars]
    assert middles == [pytest.approx([-85, -110]), pytest.approx([85, -110])]


def test_the_picture_asks_for_care_and_for_the_manual() -> None:
    notes = " ".join(texts(draw_hooping(PLAN, SEAM, SEAM.hoopings[0]), "notes"))
    for words in ("by a trace", "hands out of the field", "machine's manual"):
        assert words in notes


def test_the_title_says_which_hooping_it_is() -> None:
    title = " ".join(texts(draw_hooping(PLAN, QUILT, TURNED), "title"))
    assert "hooping 4 of 4" in title
    assert "200 mm x 260 mm, upside down" in title
    assert "10 5/8 in from its left, 14 3/16 in from its top" in title
    assert "377 stitches, 4 runs, 4 thread cuts" in title


def test_every_run_has_a_number_where_there_is_room() -> None:
    numbers = texts(draw_hooping(PLAN, QUILT, TURNED), "run-numbers")
    assert sorted(numbers) == ["1", "2", "3", "4"]


def test_a_small_corner_is_readable_too() -> None:
    corner = np.array([(6.0, 6.0), (6, 18), (6, 6), (14, 6), (6, 18), (6, 22)])
    hooping = Hooping(number=1, field=(24.0, 24.0), centre=(12.0, 12.0), turn_deg=37.5)
    sewn = sewn_hooping(hooping, [[corner]], pull_up=True)
    svg = draw_hooping(PLAN, QUILT, sewn)
    root = ET.fromstring(svg.encode())  # noqa: S314 - our own text
    sizes = [float(g.get("font-size", "")) for g in root.iter(f"{SVG}g") if g.get("font-size")]
    width = float((root.get("viewBox") or "").split()[2])
    # Common practice, no source: 6 point (2.1 mm) is the smallest print for daily use.
    assert sorted(sizes)[1] >= 2.1
    assert width < 8 * 24
    assert "turned 37.5 degrees" in " ".join(texts(svg, "title"))


def test_stitches_outside_the_field_are_seen() -> None:
    # A plan with an error finding can be drawn: the maker has to see what is wrong.
    outside = np.array([(-200.0, 0.0), (300.0, 0.0)])
    hooping = replace(TURNED.hooping, turn_deg=0.0)
    svg = draw_hooping(PLAN, QUILT, sewn_hooping(hooping, [[outside]]))
    root = ET.fromstring(svg.encode())  # noqa: S314 - our own text
    x, _, width, _ = map(float, (root.get("viewBox") or "").split())
    drawn = np.concatenate(path_in(svg, "thread", stroke=QUILT.thread.top))
    assert x < drawn[:, 0].min()
    assert drawn[:, 0].max() < x + width
    assert np.ptp(drawn[:, 0]) == pytest.approx(500)


def test_basting_is_no_part_of_the_order_and_is_named() -> None:
    box = np.array([(200.0, 300.0), (340.0, 300.0), (340.0, 420.0), (200.0, 420.0)])
    line = np.array([(220.0, 320.0), (320.0, 320.0)])
    sewn = sewn_hooping(TURNED.hooping, [[box], [line]])
    steps = np.hypot(*np.diff(sewn.stitches.needle_points, axis=0).T)
    count = int(steps.argmax()) + 1  # the hop from the box to the line
    basted = replace(sewn, basting=Basting(box=True, stitches=count))
    svg = draw_hooping(PLAN, QUILT, basted)
    drawn = np.concatenate(polylines(layer(svg, "basting").findall(f"{SVG}path")[0]))
    assert drawn == pytest.approx(-(sewn.stitches.needle_points[:count] - (270, 360)), abs=0.01)
    band = np.concatenate(polylines(layer(svg, "order-2").findall(f"{SVG}path")[0]))
    assert band[[0, -1]] == pytest.approx(-(line - (270, 360)), abs=0.06)
    assert not layer(svg, "order-1").findall(f"{SVG}path")
    assert "basting, taken out when the" in texts(svg, "legend")
    assert 'id="basting"' not in draw_hooping(PLAN, QUILT, sewn)
