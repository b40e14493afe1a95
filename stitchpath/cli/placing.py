"""How the hoops are placed, in sentences: how few, where they meet, what each would need."""

from typing import Any

from stitchpath.model.plan import Plan, Stage
from stitchpath.preview.data import fields_data
from stitchpath.preview.join_data import joins_data
from stitchpath.preview.words import counted, duration
from stitchpath.units import format_field


def explain_placing(plan: Plan) -> list[str]:
    """Return what there is to say of a plan's hoopings, a line each."""
    notes = [
        _how_few(stage) for stage in plan.stages if stage.bound and len(stage.hoopings) > 1
    ]
    notes += [_where_joined(stage) for stage in plan.stages if stage.joins]
    unit = plan.project.units
    for alone in plan.fields_alone:
        field = format_field(alone.field, unit)
        needs = (
            f"{counted(alone.hoopings, 'hooping')}, {duration(alone.seconds + alone.handling)} "
            f"in all, {duration(alone.seconds)} of it sewing"
        )
        notes.append(
            f"with the field of {field} alone: {needs if alone.hoopings else 'not to be sewn'}"
        )
    return notes


def placing_data(plan: Plan) -> dict[str, Any]:
    """Return the same as data, as in plan.json."""
    return {
        "placing": [
            {"stage": stage.name, "bound": stage.bound, "joins": joins_data(stage)}
            for stage in plan.stages
        ],
        "fields": fields_data(plan),
    }


def _how_few(stage: Stage) -> str:
    count = len(stage.hoopings)
    if count == stage.bound:
        return f"{stage.name}: {count} hoopings, as few as can be"
    return f"{stage.name}: {count} hoopings; fewer than {stage.bound} cannot be"


def _where_joined(stage: Stage) -> str:
    joins = joins_data(stage)
    return (
        f"{stage.name}: joins on crossings of lines: {joins['on_crossings']}, "
        f"on straight stretches: {joins['elsewhere']}; both sides sew the overlap"
    )
