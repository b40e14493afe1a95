"""Does what lies between needle and machine body fit through the throat?

Measure: what lies right of the needle is rolled up to the hoop's ring, unless it lies flat. A
tight roll has the area of the sheet's edge, so its diameter is sqrt(4 w t / pi) for a width w
and a thickness t (geometry); a roll made by hand is 1.3 times as thick (common practice, no
source). It has to be lower than the throat is high, and with half the ring narrower than the
throat is wide.

Limits: `machine.throat`, with the needle in the middle of the field. The margins of backing and
batting make the roll thicker, and are not counted.
"""

from collections.abc import Iterator

from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Throat
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.units import format_length

CODE = "throat-fit"


def check(plan: Plan) -> Iterator[Finding]:
    """Say for each stage where a roll does not fit, or how thick the thickest is."""
    for stage in plan.stages:
        rolled = [
            (sewn.hooping.throat, sewn)
            for sewn in stage.hoopings
            if sewn.hooping.throat is not None and not _is_flat(sewn.hooping.throat)
        ]
        if rolled:
            throat, sewn = max(rolled, key=lambda pair: (not pair[0].fits, pair[0].roll))
            misfits = sum(not throat.fits for throat, _ in rolled)
            yield _finding(plan, stage, sewn, throat, misfits)


def _is_flat(throat: Throat) -> bool:
    return throat.roll == 0 and throat.fits


def _finding(
    plan: Plan, stage: Stage, sewn: SewnHooping, throat: Throat, misfits: int
) -> Finding:
    unit, (width, height) = plan.project.units, plan.project.machine.throat
    ring = sewn.hooping.ring or sewn.hooping.field
    value, limit = throat.roll, height
    roll, number = f"the roll of the {stage.piece.name} in the throat", sewn.hooping.number
    text = f"{roll} is {format_length(value, unit)} thick at the most, in hooping {number}"
    if not throat.fits and throat.roll <= height:
        value, limit = throat.roll + ring[0] / 2, width
        taken = f"{roll} and half the ring take" if throat.roll else "half the ring takes"
        text = f"{taken} {format_length(value, unit)} in hooping {number}"
    if not throat.fits:
        way = "wide" if limit == width and value != throat.roll else "high"
        text += f", and the throat is {format_length(limit, unit)} {way}"
        others = f"; so it is in {misfits} of {len(stage.hoopings)} hoopings"
        text += others * (misfits > 1)
    return Finding(
        code=CODE,
        level=Level.NOTE if throat.fits else Level.WARNING,
        text=text,
        help="" if throat.fits else _remedy(throat),
        stage=stage.name,
        where=sewn.hooping.centre,
        value=value,
        limit=limit,
    )


def _remedy(throat: Throat) -> str:
    if throat.roll == 0:
        return "write your machine's own size as machine.throat, or take a smaller hoop"
    return (
        "roll it tighter, or take a thinner batting, a smaller hoop or a machine with more room"
    )
