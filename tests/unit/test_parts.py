"""A plan says the same whether its stitches are looked at all at once or a few at a time."""

import pytest

from stitchpath.catalog.formats import FORMATS
from stitchpath.checks import check_plan
from stitchpath.cli.files import load_project
from stitchpath.estimate import count_stitches
from stitchpath.machine import stitch_file
from stitchpath.model.plan import Plan
from stitchpath.pipeline import plan
from stitchpath.preview import draw_hooping, plan_data
from stitchpath.preview.booklet.player import player_data
from tests.support.command_line import DESIGNS


@pytest.fixture(scope="module")
def planned() -> Plan:
    return plan(load_project(DESIGNS / "tide-cushion.toml"))


def _told(planned: Plan) -> list[object]:
    """Return all that is worked out stitch by stitch."""
    stage = planned.stages[0]
    (sewn, *_) = stage.hoopings
    return [
        plan_data(planned, {}),
        player_data(planned),
        check_plan(planned, ()),
        draw_hooping(planned, stage, sewn),
        count_stitches(sewn.stitches, planned.project.machine, runs=1, thickness_mm=1),
        *(
            stitch_file(
                sewn.stitches, sewn.hooping, format=FORMATS[name], name="", thread=stage.thread
            )
            for name in ("dst", "exp")
        ),
    ]


def test_in_parts_all_is_told_and_written_alike(
    planned: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = _told(planned)
    monkeypatch.setattr("stitchpath.geometry.points._AT_A_TIME", 97)
    assert _told(planned) == whole


def test_a_hooping_of_too_many_stitches_is_drawn_along_its_lines(
    planned: Plan, monkeypatch: pytest.MonkeyPatch
) -> None:
    stage = planned.stages[0]
    stitch_by_stitch = draw_hooping(planned, stage, stage.hoopings[0])
    monkeypatch.setattr("stitchpath.preview.sewing_layers.MOST_STITCHES", 10)
    along_lines = draw_hooping(planned, stage, stage.hoopings[0])
    assert 'id="needle-points"' in stitch_by_stitch
    assert 'id="needle-points"' not in along_lines
    assert 'id="thread"' in along_lines
    assert len(along_lines) < len(stitch_by_stitch)
