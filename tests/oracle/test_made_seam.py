"""The seam's files, needle point by needle point: triangles, order, pauses, whole stitches.

The order is the one worked by hand: from the corner down the side, back up to the corner, along
the mouth, back, forward again, slanting to where the side leg ended, and on down the side.
"""

import tomllib
from itertools import groupby, pairwise
from typing import Any, Final

import numpy as np
import pytest

from tests.support.command_line import DESIGNS
from tests.support.made_folder import Array, Hooped, Made

_WITH_POCKET: Final = [
    path
    for path in sorted(DESIGNS.glob("*.toml"))
    if "pocket" in tomllib.loads(path.read_text(encoding="utf-8"))
]
pytestmark = [
    pytest.mark.slow,
    pytest.mark.parametrize("made", _WITH_POCKET, indirect=True, ids=lambda path: path.stem),
]

INCH_MM: Final = 25.4
_SHORTEST_LEG_MM: Final = 3.0
"""Shorter ones are ties."""
_BY_HAND: Final = ["down", "up", "across", "back", "across", "slant", "down"]


def _legs(path: Array, *, towards: float) -> list[tuple[str, Array]]:
    """Return the straight ways of a path: which way, and where to; ties left out."""
    ways = [_way(step, towards) for step in np.diff(path, axis=0)]
    ends = np.flatnonzero([way != after for way, after in pairwise([*ways, ""])]) + 1
    starts = np.concatenate([[0], ends[:-1]])
    lengths = np.hypot(*(path[ends] - path[starts]).T)
    long = [
        (ways[end - 1], path[end])
        for end, length in zip(ends, lengths, strict=True)
        if length >= _SHORTEST_LEG_MM
    ]
    return [list(group)[-1] for _, group in groupby(long, lambda leg: leg[0])]


def _way(step: Array, towards: float) -> str:
    """Name the way of a step; `towards` is +1 where the mouth's middle lies to the right."""
    x, y = step[0] * towards, step[1]
    if abs(x) <= 0.15:  # rounded to 0.1 mm
        return "down" if y > 0 else "up"
    if abs(y) <= 0.15:
        return "across" if x > 0 else "back"
    return "slant"


def _triangles(made: Made) -> list[tuple[Array, float]]:
    """Return what is sewn from each mouth corner, left and right, as if it were sewn first."""
    seam = [one for one in made.hooped if one.stage["name"] == "seam"]
    points = np.concatenate([one.on_piece for one in seam])
    corners = [(points[:, 0].min(), 1.0), (points[:, 0].max(), -1.0)]
    found = []
    for x, towards in corners:
        corner = np.array([x, points[:, 1].min()])
        ends = [end for one in seam for path in one.paths for end in (path, path[::-1])]
        nearest = min(ends, key=lambda end: float(np.hypot(*(end[0] - corner))))
        assert np.hypot(*(nearest[0] - corner)) <= 0.15
        found.append((nearest, towards))
    return found


def test_triangles_are_sewn_as_by_hand_and_mirrored(made: Made) -> None:
    side, across = _triangle_mm(made.design)
    corner, foot, end = (0.0, 0.0), (0.0, side), (across, 0.0)
    for path, towards in _triangles(made):
        legs = _legs(path, towards=towards)
        whole = made.design["pocket"]["seam"].get("sew", "sides") == "sides"
        assert [way for way, _ in legs[: 6 + whole]] == _BY_HAND[: 6 + whole]
        places = [(place - path[0]) * (towards, 1) for _, place in legs[:6]]
        by_hand = np.array([foot, corner, end, corner, end, foot])
        assert np.hypot(*(places - by_hand).T).max() <= 0.15


def test_one_triangle_comes_first_and_the_other_last(made: Made) -> None:
    hooped = [one for one in made.hooped if one.stage["name"] == "seam"]
    (left, _), (right, _) = _triangles(made)
    firsts = [path[0] for one in hooped for path in one.paths]
    lasts = [path[-1] for one in hooped for path in one.paths]
    assert any(np.array_equal(left[0], first) for first in firsts)
    assert any(np.array_equal(right[0], last) for last in lasts)


def test_repeated_legs_do_not_fall_into_the_same_holes(made: Made) -> None:
    side, _ = _triangle_mm(made.design)
    for path, _ in _triangles(made):
        x = path[0][0]
        on_side = path[np.abs(path[:, 0] - x) <= 0.15]
        inner = on_side[
            (on_side[:, 1] > path[0][1] + 1) & (on_side[:, 1] < path[0][1] + side - 1)
        ]
        holes = np.sort(inner[:, 1])
        assert len(holes) > 2 * (side / 2.6 - 2)
        assert np.diff(holes).min() > 0.25


def test_legs_have_whole_stitches(made: Made) -> None:
    side, across = _triangle_mm(made.design)
    corner_points = [(0, 0), (0, side), (across, 0)]
    for path, towards in _triangles(made):
        places = (path - path[0]) * (towards, 1)
        for corner in corner_points:
            assert np.hypot(*(places - corner).T).min() <= 0.15


def test_there_is_a_pause_after_the_first_stitch_of_every_hooping(made: Made) -> None:
    assert made.design["machine"].get("bobbin_pull_up", "seam") == "seam"
    for one in made.hooped:
        if one.stage["name"] == "seam":
            assert one.sewn.pauses == tuple(np.flatnonzero(one.sewn.starts) + 1)
        else:
            assert one.sewn.pauses == ()


def test_seam_is_one_run_in_each_hooping(made: Made) -> None:
    for one in made.hooped:
        if one.stage["name"] == "seam":
            assert _run_count(one) == one.said["runs"] == 1


def _run_count(one: Hooped) -> int:
    return int(one.sewn.starts.sum())


def _triangle_mm(design: dict[str, Any]) -> tuple[float, float]:
    """Return the legs that a design asks for, mm; those here are in inches or cm."""
    seam = design["pocket"]["seam"]
    unit_mm = {"in": INCH_MM, "cm": 10.0}[design["units"]]
    side, across = (_number(seam[name]) * unit_mm for name in ("corner_side", "corner_across"))
    return side, across


def _number(written: str | float) -> float:
    if not isinstance(written, str):
        return written
    over, under = written.split("/")
    return int(over) / int(under)
