"""The acceptance test: made folders, judged from the outside.

Only what lies on the disk is looked at: plan.json, the stitch files, the project file. dst
files are read by an independent decoder (its source stands in tests/support/dst_record.py), the
other formats by the library commonly used for them; lines are compared by shapely.
"""

import math
import shutil
from itertools import combinations, groupby, pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely

from tests.support.command_line import DESIGNS
from tests.support.made_folder import Hooped, Made, lines_of, make_design, read_stitch_file

pytestmark = pytest.mark.slow

FOLLOWED_MM = 0.05 + 0.0708
"""How far a sewn line may leave the designed one, and half the diagonal of a 0.1 mm step."""
MISSED_MM = 0.2
"""A stretch of line farther than this from everything sewn is missed."""
TIE_STITCHES = 4
"""Stitches at a path's start or end that may be short."""
_FORMATS = ("dst", "exp", "pes", "jef", "vp3", "u01", "xxx")


def test_files_are_those_that_plan_json_lists(made: Made) -> None:
    assert made.made.hashes() == made.made.plan["files"]


def test_each_hooping_has_its_file_in_each_format(made: Made) -> None:
    listed = [path for one in made.hooped for path in one.said["files"].values()]
    assert set(listed) <= made.made.plan["files"].keys()
    assert len(set(listed)) == len(listed)
    for one in made.hooped:
        assert list(one.said["files"]) == made.design["machine"]["formats"]


def test_order_is_pocket_quilt_seam_and_by_number(made: Made) -> None:
    stages = [stage["name"] for stage in made.made.plan["stages"]]
    assert stages == [name for name in ("pocket", "quilt", "seam") if name in stages]
    order = [(entry["stage"], entry["hooping"]) for entry in made.made.plan["order"]]
    assert order == [
        (stage["name"], number)
        for stage in made.made.plan["stages"]
        for number in range(1, len(stage["hoopings"]) + 1)
    ]
    text = (made.made.folder / "sewing-order.txt").read_text(encoding="utf-8")
    firsts = [next(iter(entry["files"].values())) for entry in made.made.plan["order"]]
    places = [text.index(first) for first in firsts]
    assert places == sorted(places)


def test_needle_points_lie_inside_their_field(made: Made) -> None:
    for one in made.hooped:
        half = np.array(one.said["field"]) / 2
        assert np.all(np.abs(one.sewn.xy) <= half + 1e-9)


def test_needle_points_lie_on_designed_lines(made: Made) -> None:
    for one in made.hooped:
        lines = shapely.union_all(lines_of(one.stage))
        away = shapely.distance(shapely.points(one.on_piece), lines)
        assert away.max() <= FOLLOWED_MM


def test_every_line_is_sewn_and_nothing_else(made: Made) -> None:
    for stage in made.made.plan["stages"]:
        sewn = _threads(one for one in made.hooped if one.stage is stage)
        lines = shapely.union_all(lines_of(stage))
        missed = shapely.difference(lines, shapely.buffer(sewn, MISSED_MM))
        foreign = shapely.difference(sewn, shapely.buffer(lines, MISSED_MM))
        assert shapely.length(missed) == 0
        assert shapely.length(foreign) == 0


def test_only_overlaps_are_sewn_in_two_hoopings(made: Made) -> None:
    overlap = _millimetres(made.design.get("hoopings", {}).get("overlap", "6 mm"))
    for stage in made.made.plan["stages"]:
        shared = _shared(lines_of(stage), [one for one in made.hooped if one.stage is stage])
        # where lines cross, a neighbour's thread covers a little of this one
        joins = np.array([length for length in shared if length > 3 * MISSED_MM])
        assert np.all(np.abs(joins - (overlap + 2 * MISSED_MM)) <= MISSED_MM)
        assert len(joins) >= len(stage["hoopings"]) - 1 or stage["name"] == "seam"


def test_the_piece_is_turned_seldom_and_sewn_from_the_middle_outwards_between(
    made: Made,
) -> None:
    in_rows = made.design.get("hoopings", {}).get("order") == "rows"
    for stage in made.made.plan["stages"]:
        middle = (stage["piece"]["width"] / 2, stage["piece"]["length"] / 2)
        sides = [one["throat"]["side"] for one in stage["hoopings"]]
        gone = [list(group) for _, group in groupby(stage["hoopings"], _side)]
        assert len(gone) == len(set(sides))
        for hoopings in gone:
            away = [round(math.dist(one["centre"], middle), 2) for one in hoopings]
            assert in_rows or away == sorted(away)


def _side(hooping: dict[str, Any]) -> str:
    return str(hooping["throat"]["side"])


def test_figures_are_those_of_the_files(made: Made) -> None:
    cuts_thread = made.design["machine"].get("cuts_thread", True)
    for one in made.hooped:
        said, sewn = one.said, one.sewn
        assert said["stitches"] == len(sewn.tenths)
        assert said["pauses"] == len(sewn.pauses)
        assert said["jumps"] == sewn.jumps
        assert said["thread_cuts"] == (sewn.cuts if cuts_thread else 0)
        basted = len(said["basting"]["marks"]) + said["basting"]["box"]
        assert said["runs"] == 1 + _ways(one.lasting.xy, one.lasting.starts) + basted
        low, high = sewn.tenths.min(axis=0), sewn.tenths.max(axis=0)
        assert said["bounds"] == pytest.approx([*(low / 10), *(high / 10)])


def test_totals_are_sums(made: Made) -> None:
    plan = made.made.plan
    rounding = 1e-4 * len(made.hooped)
    for stage in plan["stages"]:
        for name in ("stitches", "thread_cuts", "seconds", "top_thread_mm", "bobbin_thread_mm"):
            parts = [one[name] for one in stage["hoopings"]]
            assert stage["totals"][name] == pytest.approx(sum(parts), abs=rounding)
    for name in ("stitches", "thread_cuts", "seconds"):
        parts = [stage["totals"][name] for stage in plan["stages"]]
        assert plan["totals"][name] == pytest.approx(sum(parts), abs=rounding)
    assert plan["totals"]["hoopings"] == len(made.hooped) == len(plan["order"])


def test_seconds_follow_from_the_files(made: Made) -> None:
    # 5 s a cut, 15 s a snip by hand, 20 s a pause: common practice, no source
    machine = made.design["machine"]
    snips = not machine.get("cuts_thread", True)
    for one in made.hooped:
        sewing = _needle_seconds(one, machine.get("speed", 600))
        by_hand = (one.said["runs"] - 1) * 15 * snips
        waiting = one.said["thread_cuts"] * 5 + by_hand + len(one.sewn.pauses) * 20
        assert one.said["seconds"] == pytest.approx(sewing + waiting, rel=0.001)


def _needle_seconds(one: Hooped, speed: float) -> float:
    """Return how long the needle takes, 8 points at half speed after each start.

    The frame is done with a stitch in half a turn, at 7100 mm/s^2 (from memory, no source).
    """
    starts = np.flatnonzero(one.sewn.starts)[1:]
    seconds = 0.0
    for part in np.split(one.sewn.xy, np.unique([*starts, *one.sewn.pauses])):
        steps = np.concatenate([[0.0], _lengths(part)])
        turns = np.maximum(60 / speed, 2 * 2 * np.sqrt(steps / 7100))
        seconds += turns.sum() + turns[:8].sum()
    return seconds


def test_thread_follows_from_the_files(made: Made) -> None:
    # a lockstitch of length L through a thickness t takes L + t of each thread (2 + 2TS for
    # both in an inch, see docs/sources.md); the files' lengths are rounded to 0.1 mm
    thickness = _millimetres(made.design["batting"]["thickness"])
    for one in made.hooped:
        layers = 2 if one.stage["name"] == "seam" else 1
        assert one.stage["thickness"] == pytest.approx(layers * thickness)
        lengths = np.concatenate([_lengths(path) for path in one.sewn.paths(one.sewn.xy)])
        thread = lengths.sum() + len(lengths) * layers * thickness
        assert one.said["top_thread_mm"] == pytest.approx(thread, rel=0.005)
        assert one.said["bobbin_thread_mm"] == one.said["top_thread_mm"]


def test_bobbins_are_enough_and_not_one_too_many(made: Made) -> None:
    # metres wound at home, from memory: A about 55, L about 40; a tenth is left on each
    metres = {"A": 55, "L": 40}[made.design["machine"].get("bobbin", "L")] * 0.9
    for stage in made.made.plan["stages"]:
        thread = stage["totals"]["bobbin_thread_mm"] / 1000
        assert (stage["totals"]["bobbins"] - 1) * metres < thread
        assert thread <= stage["totals"]["bobbins"] * metres


def test_stitches_are_neither_too_long_nor_too_short(made: Made) -> None:
    longest, shortest = 7.0, 1.0  # the defaults of the project file
    assert not made.design["machine"].keys() & {"longest_stitch", "shortest_stitch"}
    for one in made.hooped:
        for path in one.lasting.paths(one.lasting.xy):
            lengths = _lengths(path)
            assert lengths.max() <= longest
            assert lengths.min() > 0
            assert lengths[TIE_STITCHES:-TIE_STITCHES].min() >= shortest


def test_ties_are_a_few_short_stitches_at_both_ends(made: Made) -> None:
    for one in made.hooped:
        for path in one.paths:
            for end in (path, path[::-1]):
                steps = np.diff(end[:5], axis=0)
                assert np.hypot(*steps[:3].T).max() <= 2.0  # never over 2 mm, common practice
                turns = [float(a @ b) < 0 for a, b in pairwise(steps)]
                assert turns == [False, True, True]  # two forward, one back, on


def test_all_seven_formats_hold_the_same_needle_points(tmp_path: Path) -> None:
    text = (DESIGNS / "ferry-throw.toml").read_text(encoding="utf-8")
    few = text.replace('["dst", "exp", "pes"]', str(list(_FORMATS)).replace("'", '"'))
    assert few != text
    project = tmp_path / "throw.toml"
    project.write_text(few, encoding="utf-8")
    made = make_design(project, tmp_path / "out")
    for one in made.hooped:
        files = one.said["files"]
        assert tuple(files) == _FORMATS
        for path in files.values():
            read = read_stitch_file(made.made.folder / path)
            assert np.array_equal(read.tenths, one.sewn.tenths), path
    shutil.rmtree(tmp_path / "out")


def _millimetres(written: str | float) -> float:
    """Read the few ways in which the designs write mm."""
    return float(str(written).removesuffix("mm"))


def _threads(hooped: Any) -> shapely.Geometry:  # noqa: ANN401 - an iterable of Hooped
    """Return everything that is sewn, on the piece."""
    paths = [shapely.LineString(path) for one in hooped for path in one.paths]
    return shapely.union_all(paths)


def _shared(lines: list[shapely.LineString], hooped: list[Hooped]) -> list[float]:
    """Return the lengths of the stretches of lines that two hoopings sew."""
    reached = [shapely.buffer(_threads([one]), MISSED_MM) for one in hooped]
    both = [
        area
        for mine, other in combinations(reached, 2)
        if not shapely.is_empty(area := shapely.intersection(mine, other))
    ]
    if not both:
        return []
    shared = shapely.intersection(np.array(lines)[:, None], np.array(both)[None, :])
    parts = shapely.get_parts(shapely.line_merge(shared.ravel()))
    return [length for length in shapely.length(parts).tolist() if length > 0]


def _lengths(path: Any) -> Any:  # noqa: ANN401 - an array
    return np.hypot(*np.diff(path, axis=0).T)


def _ways(xy: Any, starts: Any) -> int:  # noqa: ANN401 - arrays
    """Return how many moves without sewing are so long that they part runs: above 6 mm."""
    firsts = np.flatnonzero(starts)[1:]
    return int(np.count_nonzero(np.hypot(*(xy[firsts] - xy[firsts - 1]).T) > 6.0))
