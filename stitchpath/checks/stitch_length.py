"""Are the stitches as long as they should be?

Measure: the distances between neighbouring needle points in files, so after rounding to their
grid; ties and basting are left out. Stitches to the inch are 25.4 over the stitch in mm.
Quilting is usually sewn at 2.5 to 3.0 mm, 8 to 12 to the inch (see docs/sources.md).

Limits: the project's shortest and longest stitch; what each format holds along an axis; and
`checks.snag`, 7 mm, the usual longest setting, from which on stitches catch on things.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.formats import stitch_formats
from stitchpath.geometry.points import Points, on_grid
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.model.stitches import Op
from stitchpath.units import MM_PER

CODE = "stitch-length"
_NOISE_MM = GRID_MM / 100


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Measured:
    """Every stitch of a stage that is no tie.

    Attributes:
        lengths: How long each is in a file, shape (k,), mm.
        rows: The row at which each ends, counted hooping after hooping, shape (k,).
        reach: The longest way along an axis, mm, and which stitch goes it.
    """

    lengths: NDArray[np.float64]
    rows: NDArray[np.intp]
    reach: tuple[float, int]


def check(plan: Plan) -> Iterator[Finding]:
    """Say how long each stage's stitches are, and where they are too long or too short."""
    for stage in plan.stages:
        measured = _measure(stage)
        if len(measured.lengths):
            yield _summary(stage, measured.lengths, plan.project.machine)
            yield from _out_of_range(stage, measured, plan.project)


def _summary(stage: Stage, lengths: NDArray[np.float64], machine: Machine) -> Finding:
    low, usual, high = np.quantile(lengths, [0.05, 0.5, 0.95]).tolist()
    # a stitch file may sew on the spot
    to_the_inch = f" ({MM_PER['in'] / usual:.0f} to the inch)" if usual > _NOISE_MM else ""
    return Finding(
        code=CODE,
        level=Level.NOTE,
        text=f"stitches are {_span(lengths.min(), lengths.max())} long, nine in ten "
        f"{_span(low, high)}, mostly {usual:.1f} mm{to_the_inch}; allowed are "
        f"{machine.shortest_stitch:g} to {machine.longest_stitch:g} mm",
        stage=stage.name,
        value=usual,
        limit=machine.longest_stitch,
    )


def _span(low: float, high: float) -> str:
    """Return a range of lengths; one length where both ends are told alike."""
    ends = dict.fromkeys(f"{end:.1f}" for end in (low, high))
    return f"{' to '.join(ends)} mm"


def _out_of_range(stage: Stage, measured: _Measured, project: Project) -> Iterator[Finding]:
    machine, lengths = project.machine, measured.lengths
    longest, shortest = int(lengths.argmax()), int(lengths.argmin())
    if machine.longest_stitch + _NOISE_MM < lengths[longest]:
        yield _single(stage, measured, longest, limit=machine.longest_stitch)
    elif project.checks.snag + _NOISE_MM < lengths[longest]:
        yield _snags(stage, measured, longest, snag=project.checks.snag)
    if lengths[shortest] < machine.shortest_stitch - GRID_MM:
        yield _single(stage, measured, shortest, limit=machine.shortest_stitch)
    yield from _beyond_formats(stage, measured, machine)


def _single(stage: Stage, measured: _Measured, row: int, *, limit: float) -> Finding:
    length = float(measured.lengths[row])
    is_long = limit < length
    return Finding(
        code=CODE,
        level=Level.ERROR if is_long else Level.WARNING,
        text=f"a stitch of {length:.2f} mm is too {'long' if is_long else 'short'}; "
        f"the project's limit is {limit:g} mm",
        help="choose another stitch length, or move the limit if the machine allows it",
        stage=stage.name,
        where=_place(stage, measured.rows[row]),
        value=length,
        limit=limit,
    )


def _snags(stage: Stage, measured: _Measured, row: int, *, snag: float) -> Finding:
    length, many = float(measured.lengths[row]), int((measured.lengths > snag).sum())
    return Finding(
        code=CODE,
        level=Level.WARNING,
        text=f"stitches of up to {length:.1f} mm catch on things; longer than {snag:g} mm are "
        f"{many:,} of {len(measured.lengths):,}",
        help="choose a shorter stitch length",
        stage=stage.name,
        where=_place(stage, measured.rows[row]),
        value=length,
        limit=snag,
    )


def _beyond_formats(stage: Stage, measured: _Measured, machine: Machine) -> Iterator[Finding]:
    reach, row = measured.reach
    for format_ in stitch_formats(machine.formats):
        limit = format_.longest_step_mm
        if limit + _NOISE_MM < reach:
            yield Finding(
                code=CODE,
                level=Level.ERROR,
                text=f"a stitch of {reach:.1f} mm along one axis does not go into a "
                f"{format_.name} file, which holds {limit:g} mm",
                help="choose a shorter longest stitch, or another format",
                stage=stage.name,
                where=_place(stage, measured.rows[row]),
                value=reach,
                limit=limit,
            )


def _place(stage: Stage, row: np.intp) -> tuple[float, float]:
    """Return the place of a row of a stage's stitches, hooping after hooping."""
    ends = np.cumsum([len(sewn.stitches) for sewn in stage.hoopings])
    hooping = int(np.searchsorted(ends, row, side="right"))
    x, y = stage.hoopings[hooping].stitches.xy[row - ends[hooping]].tolist()
    return x, y


def _measure(stage: Stage) -> _Measured:
    """Return every stitch that is neither a tie nor basting."""
    lengths, rows = [np.empty(0)], [np.empty(0, dtype=np.intp)]
    reach, furthest, count, before = 0.0, 0, 0, 0
    for sewn in stage.hoopings:
        for steps, ends in _steps(sewn):
            lengths.append(np.hypot(steps[:, 0], steps[:, 1]))
            rows.append(ends + before)
            far = np.maximum(np.abs(steps[:, 0]), np.abs(steps[:, 1]))
            if reach < far.max(initial=0.0):
                reach, furthest = float(far.max()), count + int(far.argmax())
            count += len(ends)
        before += len(sewn.stitches)
    return _Measured(
        lengths=np.concatenate(lengths), rows=np.concatenate(rows), reach=(reach, furthest)
    )


def _steps(sewn: SewnHooping) -> Iterator[tuple[Points, NDArray[np.intp]]]:
    """Yield stitches along the file's axes, shape (k, 2), with the rows at which they end."""
    stitches = sewn.stitches
    last_basted = _last_basted(sewn)
    for rows in stitches.parts_of_stitch_rows():
        if not len(rows):
            continue
        first = rows[0, 0]
        places = on_grid(sewn.hooping.to_field(stitches.xy[first : rows[-1, 1] + 1]))
        is_own = ~stitches.tie[rows[:, 1]] & (rows[:, 0] > last_basted)
        before, at = rows[is_own, 0], rows[is_own, 1]
        yield places.take(at - first, axis=0) - places.take(before - first, axis=0), at


def _last_basted(sewn: SewnHooping) -> int:
    """Return the row of the last needle point of basting, which comes first; -1 without any."""
    count = sewn.basting.stitches
    return int(np.flatnonzero(sewn.stitches.op == Op.STITCH)[count - 1]) if count else -1
