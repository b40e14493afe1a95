"""The steps of the job."""

from dataclasses import replace

from stitchpath.model.estimate import BobbinChange, Bobbins
from stitchpath.preview.booklet.steps import steps_section
from tests.support.html_reader import read_html
from tests.support.plans import small_plan

PLAN = small_plan()
COLOUR = PLAN.stages[0].thread.bobbin


def _labels(*changes: BobbinChange) -> list[str]:
    wound = Bobbins(colour=COLOUR, count=2, changes=changes, left_mm=0.0, full_mm=36_000.0)
    plan = replace(PLAN, estimate=replace(PLAN.estimate, bobbins=(wound,)))
    return [one.text for one in read_html(steps_section(plan, {})) if one.name == "label"]


def test_the_piece_is_turned_before_the_hooping_that_lies_another_way() -> None:
    labels = _labels()
    turn = labels.index("Turn the quilt by 180 degrees")
    assert labels[turn + 1].startswith("Hoop and sew quilt, hooping 4")
    assert sum(label.startswith("Turn") for label in labels) == 1


def test_a_bobbin_is_changed_before_the_hooping_in_which_it_would_run_out() -> None:
    change = BobbinChange(stage="quilt", hooping=3, stitch=200, within=False)
    labels = _labels(change)
    (put,) = (at for at, label in enumerate(labels) if label.startswith("Put in a new bobbin"))
    assert labels[put + 1].startswith("Hoop and sew quilt, hooping 3")


def test_a_bobbin_of_another_stage_is_not_changed_here() -> None:
    change = BobbinChange(stage="pocket", hooping=3, stitch=200, within=False)
    assert "pocket" not in {stage.name for stage in PLAN.stages}
    assert _labels(change) == _labels()


def test_a_bobbin_that_runs_out_within_a_hooping_is_announced() -> None:
    within = BobbinChange(stage="quilt", hooping=3, stitch=1200, within=True)
    (told,) = (label for label in _labels(within) if "full bobbin" in label)
    assert told.endswith("in the next hooping one runs out after about 1,200 stitches")
