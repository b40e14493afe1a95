"""Are the stitches as long as they should be?

Measure: the distances between neighbouring needle points in files, so after rounding to their
grid; ties are left out. Stitches to the inch are 25.4 over the stitch in mm. Limits: the
project's shortest and longest stitch. Quilting is usually sewn at 2.5 to 3.0 mm, 8 to 12 to the
inch (see docs/sources.md).
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.units import MM_PER

CODE = "stitch-length"


def check(plan: Plan) -> Iterator[Finding]:
    """Say how long each stage's stitches are, and where they are too long or too short."""
    machine = plan.project.machine
    for stage in plan.stages:
        lengths, places = _measure(stage)
        if not len(lengths):
            continue
        usual = float(np.median(lengths))
        text = (
            f"stitches of the stage {stage.name} are {lengths.min():.1f} to "
            f"{lengths.max():.1f} mm long, mostly {usual:.1f} mm "
            f"({MM_PER['in'] / usual:.0f} to the inch)"
        )
        yield Finding(code=CODE, level=Level.NOTE, text=text, stage=stage.name, value=usual)
        longest, shortest = int(lengths.argmax()), int(lengths.argmin())
        noise = GRID_MM / 100
        if machine.longest_stitch + noise < lengths[longest]:
            limit = machine.longest_stitch
            yield _out_of_range(stage, float(lengths[longest]), limit, places[longest], "long")
        if lengths[shortest] < machine.shortest_stitch - GRID_MM:
            limit = machine.shortest_stitch
            yield _out_of_range(
                stage, float(lengths[shortest]), limit, places[shortest], "short"
            )


def _out_of_range(
    stage: Stage, length: float, limit: float, place: NDArray[np.float64], word: str
) -> Finding:
    return Finding(
        code=CODE,
        level=Level.ERROR if word == "long" else Level.WARNING,
        text=f"a stitch of {length:.2f} mm is too {word}; the project's limit is {limit:g} mm",
        help="choose another stitch length, or move the limit if the machine allows it",
        stage=stage.name,
        where=(float(place[0]), float(place[1])),
        value=length,
        limit=limit,
    )


def _measure(stage: Stage) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the length of every stitch that is no tie, and where it ends."""
    parts = [_segments(sewn) for sewn in stage.hoopings]
    if not parts:
        return np.empty(0), np.empty((0, 2))
    return np.concatenate([part[0] for part in parts]), np.concatenate(
        [part[1] for part in parts]
    )


def _segments(sewn: SewnHooping) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    stitches = sewn.stitches
    rows = stitches.stitch_rows
    rows = rows[~stitches.tie[rows[:, 1]]]
    rounded = np.round(sewn.hooping.to_field(stitches.xy) / GRID_MM) * GRID_MM
    steps = rounded[rows[:, 1]] - rounded[rows[:, 0]]
    return np.hypot(steps[:, 0], steps[:, 1]), stitches.xy[rows[:, 1]]
