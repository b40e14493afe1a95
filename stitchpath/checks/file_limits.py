"""Do the files hold what they are to hold?

Measure: each hooping's records, its pauses, its longest run, and how far from
the field's centre it goes, against what each chosen format can count (`catalog/formats.py`;
docs/formats.md says how that was found).

Limits: how many stitches a machine's memory takes is in its manual, and not known here.
"""

from collections.abc import Iterator
from typing import Final

import numpy as np

from stitchpath.catalog.formats import Format, stitch_formats
from stitchpath.geometry.points import parts_of
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.model.stitches import Op

CODE = "file-limits"
_HELP: Final = (
    "use a smaller field, so that more hoopings share the stitches, or another format"
)


def check(plan: Plan) -> Iterator[Finding]:
    """Point at hoopings that a chosen format cannot hold."""
    formats = stitch_formats(plan.project.machine.formats)
    for stage in plan.stages:
        for sewn in stage.hoopings:
            yield from _on_hooping(stage, sewn, formats)


def _on_hooping(stage: Stage, sewn: SewnHooping, formats: list[Format]) -> Iterator[Finding]:
    same = _measure(sewn)
    for format_ in formats:
        measured = {"records": count_records(sewn, format_)} | same
        limits = (
            format_.most_records,
            format_.most_pauses,
            format_.most_in_a_run,
            format_.farthest_units,
        )
        for (what, value), limit in zip(measured.items(), limits, strict=True):
            if limit is not None and limit < value:
                yield Finding(
                    code=CODE,
                    level=Level.ERROR,
                    text=f"hooping {sewn.hooping.number} comes to {value:,} {what}; a "
                    f"{format_.name} file holds {limit:,}",
                    help=_HELP,
                    stage=stage.name,
                    value=float(value),
                    limit=float(limit),
                )


def count_records(sewn: SewnHooping, format_: Format) -> int:
    """Return about how many records a hooping takes: long moves and cuts take several."""
    op, xy = sewn.stitches.op, sewn.stitches.xy
    jumps = np.flatnonzero(op[1:] == Op.JUMP) + 1
    before, after = (sewn.hooping.to_field(xy[rows]) for rows in (jumps - 1, jumps))
    moves = np.abs(after - before).max(axis=1)
    more = np.maximum(np.ceil(moves / format_.longest_step_mm) - 1, 0).sum()
    cuts = int(np.count_nonzero(op == Op.CUT)) * ((format_.cut_records or 1) - 1)
    return len(op) + int(more) + cuts


def _measure(sewn: SewnHooping) -> dict[str, int]:
    op = sewn.stitches.op
    breaks = np.flatnonzero(op != Op.STITCH)
    runs = np.diff(np.concatenate([[-1], breaks, [len(op)]])) - 1
    reach = max(
        (
            np.abs(sewn.hooping.to_field(sewn.stitches.xy[part])).max()
            for part in parts_of(len(op))
        ),
        default=0.0,
    )
    return {
        "pauses": int(np.count_nonzero(op == Op.PAUSE)),
        "stitches without a break": int(runs.max(initial=0)),
        "tenths of a mm from the centre": round(float(reach) / GRID_MM),
    }
