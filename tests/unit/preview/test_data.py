"""The plan as data."""

import json
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.model.hooping import Join, Overhang, Throat
from stitchpath.model.plan import Basting, FieldAlone, Figures, JoinMiss
from stitchpath.model.refit import Refit
from stitchpath.model.stitches import Stitches
from stitchpath.preview import plan_data, plan_json
from tests.support.plans import small_plan

PLAN = small_plan()
FILES = {("quilt", 1): {"dst": "quilt/01.dst", "exp": "quilt/01.exp"}}
DATA = plan_data(PLAN, FILES)

values = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=12,
)


def keys(value: dict[str, Any], names: str) -> None:
    assert set(names.split()) <= set(value)


def test_the_promised_keys_are_there() -> None:
    keys(DATA, "schema name stages cutting findings totals units fields")
    assert DATA["schema"] == "stitchpath-plan-1"
    assert DATA["units"] == "in"
    stage = DATA["stages"][0]
    keys(stage, "name piece thread lines hoopings totals route bound joins")
    keys(stage["piece"], "name width length")
    keys(stage["thread"], "top bobbin")
    keys(stage["lines"][0], "points anchor")
    hooping = stage["hoopings"][0]
    keys(
        hooping, "number field centre turn files stitches runs thread_cuts jumps pauses bounds"
    )
    keys(hooping, "seconds top_thread_mm bobbin_thread_mm marks route")
    for routed in (stage, hooping):
        keys(routed["route"], "least_runs retraced_mm travel_mm islands open_cuts")
    keys(hooping, "ring overhang throat")
    keys(hooping["marks"][0], "name piece field")
    keys(stage["totals"], "stitches thread_cuts seconds top_thread_mm bobbin_thread_mm bobbins")
    keys(DATA["cutting"][0], "what width length count")
    keys(DATA["findings"][0], "code level stage text where value limit help")
    keys(DATA["totals"], "hoopings stitches thread_cuts seconds")


def test_ring_throat_and_joins_are_told() -> None:
    hooping = replace(
        PLAN.stages[0].hoopings[0].hooping,
        ring=(240.0, 300.0),
        overhang=Overhang(left=30.123456),
        throat=Throat(side="left", width=180.0, roll=0.0, fits=True),
    )
    sewn = replace(PLAN.stages[0].hoopings[0], hooping=hooping)
    joins = (
        Join(place=(1, 2), hoopings=(1, 2), is_on_crossing=True),
        Join(place=(3.123456, 4), hoopings=(1, 3), is_on_crossing=False),
    )
    stage = replace(PLAN.stages[0], hoopings=(sewn,), bound=1, joins=joins)
    alone = (FieldAlone(field=(100.0, 100.0), hoopings=7, seconds=90.0, handling=60.0),)
    data = plan_data(replace(PLAN, stages=(stage,), fields_alone=alone), {})
    told = data["stages"][0]["hoopings"][0]
    assert told["ring"] == [240, 300]
    assert told["overhang"] == {"left": 30.1235, "top": 0, "right": 0, "bottom": 0}
    assert told["throat"] == {"side": "left", "width": 180, "roll": 0, "fits": True}
    assert data["stages"][0]["bound"] == 1
    assert data["stages"][0]["joins"] == {
        "on_crossings": 1,
        "elsewhere": 1,
        "places": [[1, 2], [3.1235, 4]],
        "hoopings": [[1, 2], [1, 3]],
        "is_on_crossing": [True, False],
        "expected_miss_mm": [None, None],
    }
    assert data["fields"] == [
        {"field": [100, 100], "hoopings": 7, "seconds": 90, "handling_seconds": 60}
    ]


@pytest.mark.parametrize(("sews_marks", "told"), [(False, [1.2, 0.9]), (True, [5.5, 3.0])])
def test_each_join_has_the_miss_of_how_its_hoops_are_lined_up(
    sews_marks: bool, told: list[float]
) -> None:
    first, second = (Join(place=(1, y), hoopings=(1, 2), is_on_crossing=False) for y in (2, 4))
    miss = JoinMiss(
        by_marks_mm=1.2,
        by_marks_at=first,
        typical_mm=0.9,
        chained_mm=5.5,
        chained_at=first,
        by_marks_each=(1.2, 0.90000001),
        chained_each=(5.5, 3.0),
    )
    stage = replace(PLAN.stages[0], joins=(first, second), miss=miss)
    hoopings = replace(PLAN.project.hoopings, sew_marks=sews_marks)
    plan = replace(PLAN, stages=(stage,), project=replace(PLAN.project, hoopings=hoopings))
    assert plan_data(plan, {})["stages"][0]["joins"]["expected_miss_mm"] == told


def test_figures_are_those_of_the_plan() -> None:
    assert DATA["totals"]["hoopings"] == 5
    assert DATA["totals"]["stitches"] == PLAN.figures.stitches
    stitches = [one["stitches"] for stage in DATA["stages"] for one in stage["hoopings"]]
    assert sum(stitches) == PLAN.figures.stitches
    assert DATA["stages"][0]["totals"]["bobbins"] == 1


def test_a_stages_route_is_the_sum_of_its_hoopings() -> None:
    for stage, data in zip(PLAN.stages, DATA["stages"], strict=True):
        assert data["route"]["least_runs"] == stage.route.least_runs
        parts = [hooping["route"]["retraced_mm"] for hooping in data["hoopings"]]
        assert data["route"]["retraced_mm"] == pytest.approx(sum(parts), abs=1e-3)


def test_files_stand_with_their_hooping() -> None:
    first, second = DATA["stages"][0]["hoopings"][:2]
    assert first["files"] == FILES["quilt", 1]
    assert second["files"] == {}


def test_lengths_are_rounded_to_four_decimals() -> None:
    assert DATA["findings"][0]["where"] == [90.0, 120.1235]
    assert DATA["stages"][0]["hoopings"][0]["top_thread_mm"] == 1234.5679


def test_what_is_not_known_is_null() -> None:
    note = DATA["findings"][1]
    assert (note["where"], note["value"], note["limit"], note["stage"]) == (
        None,
        None,
        None,
        "",
    )


def test_bounds_are_those_of_the_file() -> None:
    for stage, told in zip(PLAN.stages, DATA["stages"], strict=True):
        for sewn, hooping in zip(stage.hoopings, told["hoopings"], strict=True):
            tenths = np.rint(sewn.hooping.to_field(sewn.stitches.needle_points) * 10)
            ends = [*tenths.min(axis=0), *tenths.max(axis=0)]
            assert hooping["bounds"] == [pytest.approx(end / 10) for end in ends]
            assert [round(bound, 1) for bound in hooping["bounds"]] == hooping["bounds"]


def test_a_hooping_without_a_needle_point_has_no_bounds() -> None:
    quilt = PLAN.stages[0]
    none = np.empty(0)
    nothing = Stitches(xy=np.empty((0, 2)), op=none.astype(np.uint8), tie=none.astype(np.bool_))
    still = replace(quilt.hoopings[0], stitches=nothing, figures=Figures())
    data = plan_data(replace(PLAN, stages=(replace(quilt, hoopings=(still,)),)), {})
    assert data["stages"][0]["hoopings"][0]["bounds"] is None


def test_json_reads_back_the_same() -> None:
    assert json.loads(plan_json(DATA)) == DATA
    assert plan_json(DATA) == plan_json(plan_data(small_plan(), FILES))


def test_points_of_a_line_stand_on_one_line_of_text() -> None:
    text = plan_json(DATA).decode()
    assert '          "points": [[60.0, 0.0], [60.0, 480.0]],\n' in text
    assert "-0.0," not in text


@given(st.dictionaries(st.text(), values, max_size=4))
def test_any_data_survives(data: dict[str, Any]) -> None:
    # json of the standard library reads what was written.
    assert json.loads(plan_json(data)) == data


def test_a_lone_surrogate_is_still_json() -> None:
    assert json.loads(plan_json({"name": "a\ud800"})) == {"name": "a\ud800"}


@pytest.mark.parametrize("number", [float("nan"), float("inf")])
def test_a_number_that_json_has_no_word_for_is_refused(number: float) -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        plan_json({"seconds": number})


def test_what_joins_to_expect_is_told_of_a_stage_that_has_any() -> None:
    plan = small_plan()
    at = Join(place=(180, 60), hoopings=(1, 2), is_on_crossing=True)
    miss = JoinMiss(
        by_marks_mm=1.91234, by_marks_at=at, typical_mm=1.5, chained_mm=4.0, chained_at=at
    )
    told = replace(plan, stages=(replace(plan.stages[0], miss=miss), plan.stages[1]))
    first, second = plan_data(told, {})["stages"]
    assert first["expected_miss"] == {
        "by_marks_mm": 1.9123,
        "typical_mm": 1.5,
        "chained_mm": 4.0,
    }
    assert second["expected_miss"] is None


def test_marks_of_a_stage_are_told_from_every_edge_and_from_the_middle() -> None:
    """Mark E of the seam lies at 95, 290 mm on a quilt of 360 x 480 mm (arithmetic)."""
    seam = plan_data(small_plan(), {})["stages"][1]
    assert seam["marks"][0] == {
        "name": "E",
        "piece": [95.0, 290.0],
        "from_left": 95.0,
        "from_right": 265.0,
        "from_top": 290.0,
        "from_bottom": 190.0,
        "from_centre": [-85.0, 50.0],
        "hoopings": [1],
    }


def test_basting_and_refits_are_told_of_their_hooping() -> None:
    plan = small_plan()
    seam = plan.stages[1]
    refit = Refit(
        stage="seam",
        number=1,
        planned_centre=(180, 400),
        planned_turn_deg=0,
        field=(200, 260),
        centre=(181.5, 400),
        turn_deg=-0.25,
        marks=(),
        file="n.dst",
    )
    basting = Basting(marks=("A",), box=True, stitches=99)
    sewn = replace(seam.hoopings[0], refit=refit, basting=basting)
    told = plan_data(replace(plan, stages=(replace(seam, hoopings=(sewn,)),)), {})
    (hooping,) = told["stages"][0]["hoopings"]
    assert hooping["refit"] == {
        "centre": [181.5, 400.0],
        "turn": -0.25,
        "scale": 1.0,
        "file": "n.dst",
    }
    assert hooping["basting"] == {"marks": ["A"], "box": True, "stitches": 99}
