"""The stitch player shows what the plan says."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.estimate.bobbins import usable_mm, wind_bobbins
from stitchpath.model.design import Design
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.model.stitches import Op
from stitchpath.pipeline import plan
from tests.support.designs import stitched
from tests.support.plans import small_plan
from tests.support.players import Open, choose, held, painted, scrub, settled, shows

PLAN = small_plan()


def _in_fields(plan: Plan, stage: int) -> np.ndarray:
    """Return hooping and place in the field, in tenths of a mm, of a stage's needle points."""
    return np.vstack(
        [
            np.column_stack(
                [
                    np.full(sewn.figures.stitches, sewn.hooping.number),
                    np.rint(sewn.hooping.to_field(sewn.stitches.needle_points) * 10),
                ]
            )
            for sewn in plan.stages[stage].hoopings
        ]
    ).astype(int)


@pytest.mark.parametrize("stage", [0, 1])
def test_needle_is_where_the_plan_says_for_a_hundred_random_stitches(
    open_booklet: Open, stage: int
) -> None:
    page, points = open_booklet(PLAN), _in_fields(PLAN, stage)
    choose(page, f"{PLAN.stages[stage].name} 0")
    chosen = np.random.default_rng(7).integers(1, len(points) + 1, 100).tolist()
    shown = page.locator("#scrub").evaluate(
        """(slider, chosen) => chosen.map((at) => {
          slider.value = at;
          slider.dispatchEvent(new Event("input"));
          const shows = (name) => document.getElementById(`shows-${name}`).textContent;
          return [shows("stitch"), shows("hooping"), shows("needle")];
        })""",
        chosen,
    )
    for at, seen in zip(chosen, shown, strict=True):
        hooping, x, y = points[at - 1].tolist()
        assert seen == [
            f"{at:,} of {len(points):,}",
            f"{hooping} of {len(PLAN.stages[stage].hoopings)}",
            f"{x / 10:.1f}, {y / 10:.1f}",
        ]


def test_one_hooping_is_shown_from_its_own_first_stitch(open_booklet: Open) -> None:
    page, points = open_booklet(PLAN), _in_fields(PLAN, 0)
    choose(page, "quilt 3")
    own = points[points[:, 0] == 3]
    scrub(page, 5)
    assert shows(page, "stitch") == f"5 of {len(own):,}"
    assert shows(page, "needle") == "{:.1f}, {:.1f}".format(*(own[4, 1:] / 10))
    assert shows(page, "hooping") == "3 of 4"


def test_time_and_thread_add_up_to_the_figures(open_booklet: Open) -> None:
    page = open_booklet(PLAN)
    for stage in PLAN.stages:
        choose(page, f"{stage.name} 0")
        page.locator("#go-last").click()
        minutes, seconds = divmod(round(stage.figures.seconds), 60)
        clock = f"0:{minutes:02}:{seconds:02}"
        assert shows(page, "time") == f"{clock} of {clock}"
        assert shows(page, "bobbin") == "not counted"  # this plan has no bobbins
        assert shows(page, "state") == "done"


@pytest.mark.parametrize("tex", [20.0, 200.0])
def test_bobbins_are_those_that_the_plan_winds_and_changes(
    open_booklet: Open, tex: float
) -> None:
    supplies = replace(PLAN.project.supplies, thread_tex=tex)
    project = replace(PLAN.project, supplies=supplies)
    wound = wind_bobbins(PLAN.stages, project)
    plan = replace(PLAN, project=project, estimate=replace(PLAN.estimate, bobbins=wound))
    page = open_booklet(plan)
    colours = [stage.thread.bobbin for stage in plan.stages]
    for bobbins in wound:
        last = len(colours) - 1 - colours[::-1].index(bobbins.colour)
        choose(page, f"{plan.stages[last].name} 0")
        page.locator("#go-last").click()
        left, count = bobbins.left_mm / 1000, bobbins.count
        assert shows(page, "bobbin") == f"{left:.1f} m, bobbin {count} of {count}"
    choose(page, f"{plan.stages[0].name} 0")
    full = usable_mm("L", tex=tex) / 1000
    assert shows(page, "bobbin") == f"{full:.1f} m, bobbin 1 of {wound[0].count}"


def test_steps_lead_to_stitches_runs_cuts_and_pauses(open_booklet: Open) -> None:
    page, (sewn,) = open_booklet(PLAN), PLAN.stages[1].hoopings
    choose(page, "seam 0")
    page.locator("#go-on").click()
    assert shows(page, "stitch").startswith("1 of")
    assert shows(page, "state") == "pauses for you"  # the bobbin thread is drawn up
    page.locator("#go-stop").click()
    reached = np.cumsum(sewn.stitches.op == Op.STITCH)
    cut = int(reached[sewn.stitches.op == Op.CUT][0])
    assert shows(page, "stitch").startswith(f"{cut} of")
    assert shows(page, "state") == "cuts the thread"
    page.locator("#go-run-on").click()
    page.locator("#go-run-back").click()
    assert shows(page, "stitch").startswith(f"{cut} of")
    page.locator("#go-back").click()
    assert shows(page, "run") == "1 of 2"
    page.locator("#go-first").click()
    assert shows(page, "state") == "ready"


def test_thread_grows_with_the_stitches_and_winding_back_takes_it_away(
    open_booklet: Open,
) -> None:
    page = open_booklet(PLAN, quiet=False)
    choose(page, "quilt 0")
    assert painted(page, "thread") == 0
    grown = []
    for at in (100, 400, 900):
        scrub(page, at)
        grown.append(painted(page, "thread"))
    assert 0 < grown[0] < grown[1] < grown[2] < painted(page, "ghost")
    scrub(page, 400)
    assert painted(page, "thread") == grown[1]
    page.locator("#go-last").click()
    assert painted(page, "thread") == painted(page, "ghost")


def test_thread_lies_under_the_needle_and_not_where_nothing_is_sewn_yet(
    open_booklet: Open,
) -> None:
    page = open_booklet(PLAN, quiet=False, device_scale_factor=1)
    sewn = PLAN.stages[0].hoopings[1]
    choose(page, "quilt 2")
    points = sewn.hooping.to_field(sewn.stitches.needle_points)
    # geometry: the field's centre is the sheet's, and it fills 94 % of it the tighter way
    size = page.locator("#sheet-thread").evaluate("(sheet) => [sheet.width, sheet.height]")
    scale = 0.94 * min(size[0] / 200.0, size[1] / 260.0)
    pixels = np.floor(points * scale + np.array(size) / 2).astype(int)
    half = len(points) // 2
    scrub(page, half)
    alpha = page.locator("#sheet-thread").evaluate(
        "(sheet, places) => places.map(([x, y]) =>"
        " sheet.getContext('2d').getImageData(x, y, 1, 1).data[3])",
        pixels.tolist(),
    )
    assert min(alpha[:half]) > 100
    far = (
        np.hypot(*(points[half:, None] - points[None, :half]).transpose(2, 0, 1)).min(axis=1)
        > 3
    )
    assert far.any()
    assert not np.array(alpha[half:])[far].any()


def test_each_thread_is_painted_in_its_own_colour_over_what_lies_there(
    open_booklet: Open,
) -> None:
    row = [(x, 0) for x in range(0, 1000, 25)]
    beside = [(x, 200) for x, _ in row]
    colours = ("#102030", "#c04020", "#208040")
    file = stitched(*row, "colour", *row, "colour", *beside, colours=colours)
    quilt = Quilt(
        width=200, length=200, edge_stitch=0, quilting=(), design=(Design(file=file),)
    )
    made = plan(Project(quilt=quilt))
    page = open_booklet(made, quiet=False, device_scale_factor=1)
    seen = page.locator("#sheet-ghost").evaluate(
        "(sheet) => [...new Set(new Uint32Array(sheet.getContext('2d')"
        ".getImageData(0, 0, sheet.width, sheet.height).data.buffer))]"
    )
    opaque = [pixel for pixel in seen if pixel >> 24 == 255]
    painted_in = {f"#{p & 255:02x}{p >> 8 & 255:02x}{p >> 16 & 255:02x}" for p in opaque}
    assert {"#c04020", "#208040"} <= painted_in
    assert made.stages[0].thread.top not in painted_in  # the second colour lies on it


def test_playing_takes_the_time_that_the_speed_says(open_booklet: Open) -> None:
    page, seam = open_booklet(PLAN), PLAN.stages[1]
    held(page)
    choose(page, "seam 0")
    page.locator("#speed").select_option("20")
    page.locator("#go-play").click()
    assert page.locator("#go-play").inner_text() == "Stop"
    whole_ms = 1000 * seam.figures.seconds / 20
    page.clock.run_for(round(whole_ms / 2))
    minutes, seconds = divmod(seam.figures.seconds / 2, 60)
    shown = [int(part) for part in shows(page, "time").split(" of ")[0].split(":")]
    assert shown == pytest.approx([0, minutes, seconds], abs=1)
    assert shows(page, "state") != "done"
    page.clock.run_for(round(whole_ms / 2) + 100)
    assert shows(page, "state") == "done"
    assert page.locator("#go-play").inner_text() == "Play"


def test_playing_again_begins_at_the_start_and_stops_where_it_is_told(
    open_booklet: Open,
) -> None:
    page = open_booklet(PLAN)
    held(page)
    page.locator("#speed").select_option("1")
    page.locator("#go-last").click()
    page.locator("#go-play").click()
    page.clock.run_for(1000)
    page.locator("#go-play").click()
    made = int(shows(page, "stitch").split()[0])
    # 600 stitches a minute and 5 s a cut, in the time that the hand-made plan says
    figures = PLAN.stages[0].hoopings[0].figures
    real = figures.stitches / 10 + 5 * figures.thread_cuts
    assert made == pytest.approx(10 * real / figures.seconds, abs=1)
    page.clock.run_for(1000)
    assert shows(page, "stitch").startswith(f"{made} of")


def test_zoom_and_pan_move_the_picture_and_whole_brings_it_back(open_booklet: Open) -> None:
    page = open_booklet(PLAN, quiet=False)
    choose(page, "quilt 1")
    page.locator("#go-last").click()
    before = painted(page, "thread")
    page.locator("#screen").scroll_into_view_if_needed()
    page.locator("#screen").hover(position={"x": 400, "y": 300})
    page.mouse.wheel(0, -900)
    settled(page)
    assert painted(page, "thread") != before
    page.mouse.down()
    page.mouse.move(0, 0, steps=3)
    page.mouse.up()
    settled(page)
    page.locator("#go-whole").click()
    assert painted(page, "thread") == before


def test_button_of_a_page_shows_its_hooping(open_booklet: Open) -> None:
    page = open_booklet(PLAN)
    page.get_by_role("button", name="Watch hooping 4").click()
    assert page.locator("#scope").input_value() == "quilt 4"
    assert page.evaluate("document.activeElement.id") == "go-play"


def test_less_motion_is_shown_twice_a_second(open_booklet: Open) -> None:
    page = open_booklet(PLAN, reduced_motion="reduce")
    held(page)
    page.evaluate(
        "window.changes = 0; new MutationObserver(() => { window.changes += 1; })"
        ".observe(document.getElementById('shows-stitch'), { childList: true })"
    )
    page.locator("#go-play").click()
    page.clock.run_for(3200)
    assert page.evaluate("window.changes") == pytest.approx(6, abs=1)
