"""What a stage's route comes to, in a sentence."""

from dataclasses import replace

import pytest

from stitchpath.cli.route import explain_route
from stitchpath.model.plan import Stage
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
            (
                "quilt: 177 runs; the lines cannot be sewn in fewer without sewing some twice; "
                "no run is closed in"
            ),
        ),
        (
            {"runs": 163, "least_runs": 177, "retraced_mm": 1234.5},
            "in",
            (
                "quilt: 163 runs; sewn only once, the lines take at least 177; "
                "1.2 m is sewn twice to save 14 cuts; no run is closed in"
            ),
        ),
        (
            {"runs": 1, "least_runs": 2, "retraced_mm": 50.8, "islands": 1},
            "in",
            (
                "quilt: 1 run; sewn only once, the lines take at least 2; "
                "2 in is sewn twice to save 1 cut; "
                "1 run is closed in by runs sewn before: look for pleats there"
            ),
        ),
        (
            {"runs": 1500, "least_runs": 1503, "islands": 12},
            "mm",
            (
                "quilt: 1,500 runs; sewn only once, the lines take at least 1,503; "
                "short hops with the thread uncut save 3 cuts; "
                "12 runs are closed in by runs sewn before: look for pleats there"
            ),
        ),
    ],
)
def test_a_route_is_explained_in_a_sentence(
    figures: dict[str, float], unit: Unit, told: str
) -> None:
    assert explain_route(_stage(**figures), unit) == told


def test_figures_of_hoopings_are_added_up() -> None:
    stage = quilt_stage("#2a6f77")
    assert stage.route.runs == sum(sewn.route.runs for sewn in stage.hoopings)
    assert stage.route.least_runs == stage.route.runs + len(stage.hoopings)
