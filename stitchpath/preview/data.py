"""The plan as data: plan.json. Its keys are a promise to whatever reads it."""

import json
from collections.abc import Mapping
from typing import Any, Final, TypeAlias

import numpy as np

from stitchpath.geometry.points import extremes, on_grid, parts_of
from stitchpath.model.finding import Finding
from stitchpath.model.hooping import Mark, Overhang, Throat
from stitchpath.model.line import Line
from stitchpath.model.piece import Piece
from stitchpath.model.plan import Figures, JoinMiss, PieceMark, Plan, SewnHooping, Stage
from stitchpath.model.refit import Refit
from stitchpath.model.route import RouteFigures
from stitchpath.preview.design_data import design_data
from stitchpath.preview.estimate_data import estimate_data
from stitchpath.preview.join_data import each_join_data, joins_data
from stitchpath.preview.rounding import rounded, rounded_pair, rounded_points

SCHEMA: Final = "stitchpath-plan-1"

Files: TypeAlias = Mapping[tuple[str, int], Mapping[str, str]]
"""Stage name and hooping number to format and path of the file, from the plan's folder."""


def plan_data(plan: Plan, files: Files) -> dict[str, Any]:
    """Return everything that was decided, as plain values that JSON can hold.

    Lengths are in mm, rounded to 4 decimals. A hooping's `bounds` are the extents of its needle
    points in the file's own frame, on the file's grid; null where it has no needle point.

    Args:
        plan: What to tell.
        files: Which stitch files were written; hoopings that are not named have none.
    """
    figures = plan.figures
    return {
        "schema": SCHEMA,
        "name": plan.project.name,
        "units": plan.project.units,
        "stages": [_stage(plan, stage, files) for stage in plan.stages],
        "cutting": [
            {
                "what": cut.what,
                "width": rounded(cut.width),
                "length": rounded(cut.length),
                "count": cut.count,
            }
            for cut in plan.cutting
        ],
        "findings": [_finding(finding) for finding in plan.findings],
        "fields": fields_data(plan),
        "totals": {
            "hoopings": sum(len(stage.hoopings) for stage in plan.stages),
            **_figures(figures),
            "handling_seconds": rounded(sum(one.handling for one in plan.estimate.work)),
        },
        **estimate_data(plan),
    }


def plan_json(data: Mapping[str, Any]) -> bytes:
    """Return data as JSON for people and programs: UTF-8, indented, a list of points on a line.

    The same data gives the same bytes.

    Raises:
        ValueError: A number is not finite (a caller's bug; JSON has no word for it).

    Example:
        >>> print(plan_json({"name": "rug", "points": [[0.0, 1.5], [2.0, 1.5]]}).decode())
        {
          "name": "rug",
          "points": [[0.0, 1.5], [2.0, 1.5]]
        }
        <BLANKLINE>
    """
    # A lone surrogate has no UTF-8, but its escape is good JSON.
    return f"{_written(data, '')}\n".encode(errors="backslashreplace")


def joined_json(first: bytes, second: bytes) -> bytes:
    """Return what `plan_json` has written of two mappings, neither empty, as it writes both.

    Example:
        >>> print(joined_json(plan_json({"name": "rug"}), plan_json({"count": 2})).decode())
        {
          "name": "rug",
          "count": 2
        }
        <BLANKLINE>
    """
    return first.removesuffix(b"\n}\n") + b",\n" + second.removeprefix(b"{\n")


def _written(value: Any, indent: str) -> str:  # noqa: ANN401 - whatever JSON can hold
    inner = indent + "  "
    if isinstance(value, Mapping) and value:
        rows = [f"{_word(key)}: {_written(item, inner)}" for key, item in value.items()]
        return _block("{", rows, "}", indent)
    if isinstance(value, list) and _has_mapping(value):
        return _block("[", [_written(item, inner) for item in value], "]", indent)
    return _word(value)


def _block(opening: str, rows: list[str], closing: str, indent: str) -> str:
    inner = f",\n{indent}  ".join(rows)
    return f"{opening}\n{indent}  {inner}\n{indent}{closing}"


def _has_mapping(values: list[Any]) -> bool:
    return any(isinstance(value, Mapping) for value in values)


def _word(value: Any) -> str:  # noqa: ANN401 - whatever JSON can hold
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _stage(plan: Plan, stage: Stage, files: Files) -> dict[str, Any]:
    piece = stage.piece
    totals = _figures(stage.figures)
    return {
        "name": stage.name,
        "piece": {
            "name": piece.name,
            "width": rounded(piece.width),
            "length": rounded(piece.length),
            "outline": rounded_points(piece.outline),
        },
        "thread": {"top": stage.thread.top, "bobbin": stage.thread.bobbin},
        "thickness": rounded(stage.thickness_mm),
        "layouts": [
            {
                "name": layout.name,
                "lines": layout.lines,
                "length_mm": rounded(layout.length_mm),
                "widest_gap_mm": rounded(layout.widest_gap_mm),
            }
            for layout in stage.layouts
        ],
        "designs": [design_data(design) for design in stage.designs],
        "lines": [_line(line) for line in stage.lines],
        "hoopings": [
            _hooping(one, files.get((stage.name, one.hooping.number), {}))
            for one in stage.hoopings
        ],
        "marks": [_piece_mark(mark, piece) for mark in stage.marks],
        "expected_miss": None if stage.miss is None else _miss(stage.miss),
        "bound": stage.bound,
        "joins": {**joins_data(stage), **each_join_data(plan, stage)},
        "totals": {**totals, "bobbins": stage.bobbins},
        "route": route_data(stage.route),
    }


def _line(line: Line) -> dict[str, Any]:
    return {
        "points": rounded_points(line.points),
        "anchor": line.anchor,
        "kind": str(line.kind),
    }


def _hooping(sewn: SewnHooping, files: Mapping[str, str]) -> dict[str, Any]:
    hooping = sewn.hooping
    return {
        "number": hooping.number,
        "field": rounded_pair(hooping.field),
        "centre": rounded_pair(hooping.centre),
        "turn": rounded(hooping.turn_deg),
        "ring": None if hooping.ring is None else rounded_pair(hooping.ring),
        "overhang": _overhang(hooping.overhang),
        "throat": None if hooping.throat is None else _throat(hooping.throat),
        "files": dict(files),
        **_figures(sewn.figures),
        "route": route_data(sewn.route),
        "bounds": _bounds(sewn),
        "marks": [_mark(mark) for mark in hooping.marks],
        "basting": {
            "marks": list(sewn.basting.marks),
            "box": sewn.basting.box,
            "stitches": sewn.basting.stitches,
        },
        "refit": None if sewn.refit is None else _refit(sewn.refit),
    }


def _overhang(overhang: Overhang) -> dict[str, float]:
    return {
        "left": rounded(overhang.left),
        "top": rounded(overhang.top),
        "right": rounded(overhang.right),
        "bottom": rounded(overhang.bottom),
    }


def _throat(throat: Throat) -> dict[str, Any]:
    return {
        "side": throat.side,
        "width": rounded(throat.width),
        "roll": rounded(throat.roll),
        "fits": throat.fits,
    }


def fields_data(plan: Plan) -> list[dict[str, Any]]:
    """Return what each of several fields would need by itself; empty where there is but one."""
    return [
        {
            "field": rounded_pair(alone.field),
            "hoopings": alone.hoopings,
            "seconds": rounded(alone.seconds),
            "handling_seconds": rounded(alone.handling),
        }
        for alone in plan.fields_alone
    ]


def _mark(mark: Mark) -> dict[str, Any]:
    return {
        "name": mark.name,
        "piece": rounded_pair(mark.piece),
        "field": rounded_pair(mark.field),
    }


def _miss(miss: JoinMiss) -> dict[str, Any]:
    return {
        "by_marks_mm": rounded(miss.by_marks_mm),
        "typical_mm": rounded(miss.typical_mm),
        "chained_mm": rounded(miss.chained_mm),
    }


def _refit(refit: Refit) -> dict[str, Any]:
    return {
        "centre": rounded_pair(refit.centre),
        "turn": rounded(refit.turn_deg),
        "scale": refit.scale,
        "file": refit.file,
    }


def _piece_mark(mark: PieceMark, piece: Piece) -> dict[str, Any]:
    """Tell where a mark lies: on the piece, from its edges, and from its middle."""
    (x, y), (middle_x, middle_y) = mark.place, piece.centre
    return {
        "name": mark.name,
        "piece": rounded_pair(mark.place),
        "from_left": rounded(x),
        "from_right": rounded(piece.width - x),
        "from_top": rounded(y),
        "from_bottom": rounded(piece.length - y),
        "from_centre": rounded_pair((x - middle_x, y - middle_y)),
        "hoopings": list(mark.hoopings),
    }


def _figures(figures: Figures) -> dict[str, Any]:
    return {
        "stitches": figures.stitches,
        "runs": figures.runs,
        "thread_cuts": figures.thread_cuts,
        "jumps": figures.jumps,
        "pauses": figures.pauses,
        "seconds": rounded(figures.seconds),
        "top_thread_mm": rounded(figures.top_thread_mm),
        "bobbin_thread_mm": rounded(figures.bobbin_thread_mm),
    }


def route_data(route: RouteFigures) -> dict[str, Any]:
    """Return what a route comes to besides its runs and thread cuts, lengths in mm."""
    return {
        "least_runs": route.least_runs,
        "retraced_mm": rounded(route.retraced_mm),
        "travel_mm": rounded(route.travel_mm),
        "islands": route.islands,
        "open_cuts": route.open_cuts,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "code": finding.code,
        "level": str(finding.level),
        "stage": finding.stage,
        "text": finding.text,
        "help": finding.help,
        "where": None if finding.where is None else rounded_pair(finding.where),
        "value": None if finding.value is None else rounded(finding.value),
        "limit": None if finding.limit is None else rounded(finding.limit),
        "silenced": finding.silenced or None,
    }


def _bounds(sewn: SewnHooping) -> list[float] | None:
    points = sewn.stitches.needle_points
    if not len(points):
        return None
    edges = [
        extremes(grid)
        for part in parts_of(len(points))
        for grid in [on_grid(sewn.hooping.to_field(points[part]))]
    ]
    low, high = np.min(edges, axis=0)[0], np.max(edges, axis=0)[1]
    return [rounded(end) for end in (*low.tolist(), *high.tolist())]
