"""Everything that `make` writes, as bytes by path."""

import hashlib
from collections.abc import Callable
from typing import Any

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.cutting_list import CUTTING_LIST, cutting_list, cutting_picture
from stitchpath.cli.order import SEWING_ORDER, order_data, sewing_order
from stitchpath.machine import line_file, stitch_file
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview import (
    draw_batting,
    draw_booklet,
    draw_cloth,
    draw_hooping,
    draw_stage,
    plan_data,
    plan_json,
)
from stitchpath.preview.data import Files
from stitchpath.preview.templates import draw_templates

PLAN = "plan.json"
TEMPLATES = "templates.pdf"
BOOKLET = "booklet.html"


def make_outputs(plan: Plan, on_hooping: Callable[[], None]) -> dict[str, bytes]:
    """Return the files of a plan by their paths in its folder.

    Every stitch file is read back before it counts. `plan.json` lists all other files with
    their SHA-256, so that a later `make` knows what is its own.

    Args:
        plan: A plan without errors.
        on_hooping: Called after each hooping, for a progress bar.

    Raises:
        FormatError: A format cannot hold a hooping's stitches.
    """
    outputs: dict[str, bytes] = {}
    files = _paths(plan)
    for stage in plan.stages:
        outputs[f"preview/{stage.name}.svg"] = draw_stage(plan, stage).encode()
        for sewn in stage.hoopings:
            number = numbered(stage, sewn)
            picture = draw_hooping(plan, stage, sewn)
            outputs[f"preview/{stage.name}-{number}.svg"] = picture.encode()
            for name, path in files[stage.name, sewn.hooping.number].items():
                outputs[path] = _machine_file(plan, stage, sewn, name)
            on_hooping()
    outputs |= _cloths(plan)
    outputs[TEMPLATES] = draw_templates(plan)
    outputs[SEWING_ORDER] = sewing_order(plan, files).encode()
    if plan.cutting:
        outputs[CUTTING_LIST] = cutting_list(plan).encode()
    data = plan_data(plan, files)
    outputs[BOOKLET] = draw_booklet(plan, files, data).encode(errors="replace")
    more = {"order": order_data(plan, files), "files": _digests(outputs)}
    outputs[PLAN] = plan_json(data | more)
    return outputs


def _cloths(plan: Plan) -> dict[str, bytes]:
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
