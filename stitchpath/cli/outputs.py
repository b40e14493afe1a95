"""Everything that `make` writes, as bytes by path."""

import hashlib
from collections.abc import Callable, Mapping
from functools import partial
from typing import Any, TypeAlias

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.cutting_list import CUTTING_LIST, cutting_list, cutting_picture
from stitchpath.cli.order import SEWING_ORDER, order_data, sewing_order
from stitchpath.cli.side_by_side import side_by_side
from stitchpath.machine import line_file, stitch_file
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview import (
    draw_batting,
    draw_booklet,
    draw_cloth,
    draw_hooping,
    draw_stage,
    joined_json,
    plan_data,
    plan_json,
)
from stitchpath.preview.data import Files

PLAN = "plan.json"
TEMPLATES = "templates.pdf"
BOOKLET = "booklet.html"


Outputs: TypeAlias = dict[str, bytes]
"""Contents by path in the plan's folder."""


def make_outputs(plan: Plan, *, on_made: Callable[[int], None] = lambda _: None) -> Outputs:
    """Return the files of a plan by their paths in its folder.

    Every stitch file is read back before it counts. `plan.json` lists all other files with
    their SHA-256, so that a later `make` knows what is its own. The bytes are the same however
    many processes make them.

    Args:
        plan: A plan without errors.
        on_made: Told how many hoopings more are drawn and written, for a progress bar.

    Raises:
        FormatError: A format cannot hold a hooping's stitches.
        StitchpathError: A process that shared in the work was ended from outside.
    """
    files = _paths(plan)
    data = plan_data(plan, files)
    outputs: Outputs = {}
    for made in side_by_side(_made, _tasks(plan, files, data), on_made=on_made):
        outputs |= made
    begun = outputs.pop(PLAN)
    more = {"order": order_data(plan, files), "files": _digests(outputs)}
    outputs[PLAN] = joined_json(begun, plan_json(more))
    return outputs


def _tasks(plan: Plan, files: Files, data: dict[str, Any]) -> list[Callable[[], Outputs]]:
    """Return what makes the outputs, each some of them; of `plan.json` what is known so far.

    Two hoopings come first, since the first ones are made alone. What takes long stands next,
    the longest first, so that nobody is left with it at the end.
    """
    hoopings = [
        partial(_hooping_files, plan, stage, sewn, files[stage.name, sewn.hooping.number])
        for stage in plan.stages
        for sewn in stage.hoopings
    ]
    long = [
        partial(_templates, plan),
        partial(_booklet, plan, files, data),
        *(partial(_stage_picture, plan, stage) for stage in plan.stages),
        partial(_texts, plan, files, data),
        partial(_cloths, plan),
    ]
    return [*hoopings[:2], *long, *hoopings[2:]]


def _made(task: Callable[[], Outputs]) -> Outputs:
    return task()


def _hooping_files(
    plan: Plan, stage: Stage, sewn: SewnHooping, paths: Mapping[str, str]
) -> Outputs:
    """Return a hooping's picture and its files."""
    picture = f"preview/{stage.name}-{numbered(stage, sewn)}.svg"
    written = {path: _machine_file(plan, stage, sewn, name) for name, path in paths.items()}
    return {picture: draw_hooping(plan, stage, sewn).encode()} | written


def _stage_picture(plan: Plan, stage: Stage) -> Outputs:
    return {f"preview/{stage.name}.svg": draw_stage(plan, stage).encode()}


def _templates(plan: Plan) -> Outputs:
    from stitchpath.preview.templates import draw_templates  # noqa: PLC0415 - in one process

    return {TEMPLATES: draw_templates(plan)}


def _booklet(plan: Plan, files: Files, data: dict[str, Any]) -> Outputs:
    return {BOOKLET: draw_booklet(plan, files, data).encode(errors="replace")}


def _texts(plan: Plan, files: Files, data: dict[str, Any]) -> Outputs:
    texts = {SEWING_ORDER: sewing_order(plan, files).encode(), PLAN: plan_json(data)}
    return texts | ({CUTTING_LIST: cutting_list(plan).encode()} if plan.cutting else {})


def _cloths(plan: Plan) -> Outputs:
    """Return the pictures to cut by."""
    batting = plan.estimate.batting
    pictures = {cloth.name: draw_cloth(plan, cloth) for cloth in plan.estimate.cloths}
    if batting.pieces:
        pictures["batting"] = draw_batting(plan, batting)
    return {cutting_picture(name): drawn.encode() for name, drawn in pictures.items()}


def _machine_file(plan: Plan, stage: Stage, sewn: SewnHooping, name: str) -> bytes:
    """Return a hooping's file in one format."""
    title = f"{stage.name}{numbered(stage, sewn)}"
    if name in FORMATS:
        return stitch_file(
            sewn.stitches,
            sewn.hooping,
            format=FORMATS[name],
            name=title,
            thread=stage.thread,
        )
    gcode = plan.project.machine.gcode
    return line_file(sewn, format_name=name, name=title, thread=stage.thread, gcode=gcode)


def numbered(stage: Stage, sewn: SewnHooping) -> str:
    """Return a hooping's number as file names have it: 01, or 001 where there are hundreds."""
    digits = max(2, len(str(len(stage.hoopings))))
    return f"{sewn.hooping.number:0{digits}}"


def _paths(plan: Plan) -> Files:
    return {
        (stage.name, sewn.hooping.number): {
            name: f"{stage.name}/{numbered(stage, sewn)}.{name}"
            for name in plan.project.machine.formats
        }
        for stage in plan.stages
        for sewn in stage.hoopings
    }


def _digests(outputs: dict[str, bytes]) -> dict[str, Any]:
    return {path: hashlib.sha256(data).hexdigest() for path, data in sorted(outputs.items())}
