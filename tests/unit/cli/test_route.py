"""What a stage's route comes to, a fact a line."""

from dataclasses import replace

import pytest

from stitchpath.cli.route import explain_route
from stitchpath.model.plan import Basting, Stage
from stitchpath.model.route import RouteFigures
from stitchpath.units import Unit
from tests.support.plans import quilt_stage


def _stage(**figures: float) -> Stage:
    stage = quilt_stage("#2a6f77")
    route = RouteFigures(**figures)  # type: ignore[arg-type]  # some are whole
    return replace(stage, hoopings=(replace(stage.hoopings[0], route=route),))


@pytest.mark.parametrize(
    ("figures", "unit", "told"),
    [
        (
            {"runs": 177, "least_runs": 177},
            "mm",
            ["177 runs; the lines cannot be sewn in fewer without sewing some twice"],
        ),
        (
            {"runs": 163, "least_runs": 177, "retraced_mm": 1234.5},
            "in",
            [
                (
                    "163 runs; sewn only once, the lines take at least 177; "
                    "1.2 m is sewn twice to save 14 cuts"
                )
            ],
        ),
        (
            {"runs": 1, "least_runs": 2, "retraced_mm": 50.8, "islands": 1},
            "in",
            [
                (
                    "1 run; sewn only once, the lines take at least 2; "
                    "2 in is sewn twice to save 1 cut"
                ),
                "1 line is closed in by lines sewn before: look for pleats there",
            ],
        ),
        (
            {"runs": 1, "least_runs": 1, "islands": 16},
            "mm",
            [
                "1 run; there cannot be fewer",
                "16 lines are closed in by lines sewn before: look for pleats there",
            ],
        ),
        (
            {"runs": 1500, "least_runs": 1503, "islands": 12},
            "mm",
            [
                (
                    "1,500 runs; sewn only once, the lines take at least 1,503; "
                    "short hops with the thread uncut save 3 cuts"
                ),
                "12 lines are closed in by lines sewn before: look for pleats there",
            ],
        ),
        (
            {"runs": 9, "least_runs": 12, "retraced_mm": 40.0, "open_cuts": 4},
            "cm",
            [
                (
                    "9 runs; sewn only once, the lines take at least 12; "
                    "4 cm is sewn twice to save 3 cuts"
                ),
                (
                    "4 cuts are made to keep loops open; "
                    "`close_loops = true` under [route] saves as many"
                ),
            ],
        ),
        (
            {"runs": 9, "least_runs": 9, "open_cuts": 1},
            "mm",
            [
                "9 runs; the lines cannot be sewn in fewer without sewing some twice",
                (
                    "1 cut is made to keep loops open; "
                    "`close_loops = true` under [route] saves as many"
                ),
            ],
        ),
    ],
)
def test_a_route_is_explained_a_fact_a_line(
    figures: dict[str, float], unit: Unit, told: list[str]
) -> None:
    assert explain_route(_stage(**figures), unit) == [f"quilt: {line}" for line in told]


def test_basting_is_told_to_be_no_part_of_the_runs() -> None:
    # The files' own figures count it: a picture says more runs than the route has.
    stage = _stage(runs=6, least_runs=6)
    (sewn,) = stage.hoopings
    basted = replace(stage, hoopings=(replace(sewn, basting=Basting(stitches=40)),))
    (line,) = explain_route(basted, "mm")
    assert line.startswith("quilt: 6 runs besides basting; ")


def test_figures_of_hoopings_are_added_up() -> None:
    stage = quilt_stage("#2a6f77")
    assert stage.route.runs == sum(sewn.route.runs for sewn in stage.hoopings)
    assert stage.route.least_runs == stage.route.runs + len(stage.hoopings)
