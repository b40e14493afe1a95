"""What holds for any stitch file that a project places."""

from collections import defaultdict

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.catalog.formats import FORMATS
from stitchpath.machine import decode, sewn_part, stitch_file
from stitchpath.model.design import Design
from stitchpath.model.line import Line
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan, Stage
from stitchpath.model.project import HoopingRules, Project
from stitchpath.model.quilt import Quilt
from stitchpath.model.stitches import Op, Stitches
from stitchpath.pipeline import plan
from tests.strategies import design_steps
from tests.support.designs import Step, stitched
from tests.support.sewn import all_hoopings, in_file

NOISE_MM = 1e-6
some_designs = settings(max_examples=max(10, settings().max_examples // 4))
"""Planning takes long, and each of these tests plans projects of its own."""

quarter_turns = st.sampled_from([0.0, 90.0, 180.0, -90.0, 360.0])
places = st.tuples(st.floats(100, 500), st.floats(100, 500))


def planned(design: Design, *, field: tuple[float, float] = (700.0, 700.0)) -> Plan:
    """Plan a large quilt with nothing but a design."""
    return plan(
        Project(
            quilt=Quilt(width=600, length=600, edge_stitch=0, quilting=(), design=(design,)),
            machine=Machine(field=field, longest_stitch=12, formats=("dst",)),
            hoopings=HoopingRules(overlap=min(6.0, min(field) / 4)),
        )
    )


def steps_of(stitches: Stitches) -> list[tuple[int, int, int]]:
    """Return op and step of every row after the first, in tenths of a mm."""
    steps = np.rint(np.diff(stitches.xy, axis=0) * 10).astype(int)
    return [
        (*step, op) for step, op in zip(steps.tolist(), stitches.op[1:].tolist(), strict=True)
    ]


@some_designs
@given(steps=design_steps(tied=True), at=places, angle=quarter_turns, mirror=st.booleans())
def test_file_has_the_steps_of_its_design_one_by_one(
    steps: list[Step], at: tuple[float, float], angle: float, mirror: bool
) -> None:
    """Placed anywhere, mirrored, turned by quarter turns: the same moves, and none more."""
    source = stitched(*[step for step in steps if step not in ("colour", "stop")])
    result = planned(Design(file=source, at=at, angle=angle, mirror=mirror))
    (sewn,) = result.stages[0].hoopings
    data = stitch_file(
        sewn.stitches,
        sewn.hooping,
        format=FORMATS["exp"],
        name="",
        thread=result.stages[0].thread,
    )
    again = sewn_part(decode(data, "exp"))
    turn = round(angle - sewn.hooping.turn_deg)
    c, s = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[turn % 360]
    flip = -1 if mirror else 1
    expected = [
        (c * flip * dx - s * dy, s * flip * dx + c * dy, op)
        for dx, dy, op in steps_of(source.stitches)
    ]
    points = [step for step in expected if step[2] == Op.STITCH]
    assert [step for step in steps_of(again) if step[2] == Op.STITCH] == points
    assert result.stages[0].designs[0].ties == 0


@some_designs
@given(steps=design_steps(), at=places, angle=st.floats(-180, 180), width=st.floats(5, 90))
def test_needle_points_stay_in_their_field_whatever_becomes_of_a_design(
    steps: list[Step], at: tuple[float, float], angle: float, width: float
) -> None:
    source = stitched(*steps)
    own = width if source.size[0] > 0.5 else None
    result = planned(Design(file=source, at=at, angle=angle, width=own), field=(47.3, 61.1))
    for sewn in all_hoopings(result.stages):
        half = np.array(sewn.hooping.field) / 2
        assert np.all(np.abs(in_file(sewn)) <= half + NOISE_MM)


@some_designs
@given(steps=design_steps(), at=places, field=st.tuples(st.floats(21, 90), st.floats(21, 90)))
def test_every_stitch_of_a_design_is_sewn_whatever_the_field(
    steps: list[Step], at: tuple[float, float], field: tuple[float, float]
) -> None:
    result = planned(Design(file=stitched(*steps), at=at), field=field)
    if not result.stages:
        return
    (stage,) = result.stages
    for run, parts in parts_of(stage).items():
        (line,) = [line for line in stage.lines if line.file_run and line.file_run.run == run]
        assert stitch_set(line) <= set().union(*map(stitch_set, parts))
        own = {tuple(point) for point in np.round(line.points, 6).tolist()}
        for part in parts:
            ends = np.round(part.points, 6).tolist()
            added = [point for point in ends if tuple(point) not in own]
            assert len(added) <= 2


@some_designs
@given(steps=design_steps(), at=places)
def test_design_that_a_field_holds_is_sewn_in_one_hooping(
    steps: list[Step], at: tuple[float, float]
) -> None:
    source = stitched(*steps)
    width, height = source.size
    field = (max(width + 0.6, 20.0), max(height + 0.6, 20.0))
    result = planned(Design(file=source, at=at), field=field)
    assert [len(stage.hoopings) for stage in result.stages] in ([], [1])
    assert all(design.divided == 0 for stage in result.stages for design in stage.designs)


def parts_of(stage: Stage) -> dict[int, list[Line]]:
    """Return the parts of each run that hoopings sew."""
    parts: dict[int, list[Line]] = defaultdict(list)
    for sewn in stage.hoopings:
        for run in sewn.runs:
            for line in run.lines:
                if line.file_run is not None:
                    parts[line.file_run.run].append(line)
    return parts


def stitch_set(line: Line) -> set[tuple[float, ...]]:
    """Return the two ends of every stitch of a line."""
    points = np.round(line.points, 6)
    return {tuple(row) for row in np.hstack([points[:-1], points[1:]]).tolist()}
