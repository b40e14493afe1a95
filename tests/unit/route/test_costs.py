"""What may be sewn again, and at what cost."""

import pytest

from stitchpath.model.line import LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.project import RouteRules
from stitchpath.route.costs import Costs, find_costs
from tests.support.lines import line

WAY = [(0, 0), (10, 0)]


def test_a_mm_costs_its_stitches_and_the_penalty() -> None:
    """600 stitches a minute of 2.5 mm are 25 mm a second: 0.04 s for a mm."""
    costs = Costs(travel="retrace", speed=600, penalty_per_mm=0.05)
    assert costs.again_per_mm(line(WAY, stitch_mm=2.5)) == pytest.approx(0.09)


@pytest.mark.parametrize(
    ("travel", "allowed"),
    [
        ("cut", set()),
        ("edge", {LineKind.EDGE, LineKind.MOUTH}),
        ("retrace", {LineKind.EDGE, LineKind.MOUTH, LineKind.QUILTING}),
    ],
)
def test_travel_says_which_lines_may_be_sewn_again_and_a_seam_never_is(
    travel: str, allowed: set[LineKind]
) -> None:
    costs = Costs(travel=travel)  # type: ignore[arg-type]  # one of the three
    may = {kind for kind in LineKind if costs.again_per_mm(line(WAY, kind=kind)) is not None}
    assert may == allowed


def test_a_cut_costs_more_where_the_maker_snips() -> None:
    rules = RouteRules(cut_seconds=4, snip_seconds=40)
    assert find_costs(rules, Machine(cuts_thread=True)).cut_seconds == 4
    assert find_costs(rules, Machine(cuts_thread=False)).cut_seconds == 40


def test_the_rules_of_a_project_are_taken_over() -> None:
    rules = RouteRules(travel="retrace", again_penalty=0.2, parallel="same", close_loops=True)
    assert find_costs(rules, Machine(speed=500)) == Costs(
        travel="retrace",
        cut_seconds=5,
        penalty_per_mm=0.2,
        speed=500,
        same_direction=True,
        closes_loops=True,
    )
