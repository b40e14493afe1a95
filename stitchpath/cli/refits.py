"""The file of refits beside a project: what was refitted, so that later hoopings know.

`my-throw.toml` has `my-throw.refits.json`. It is data, written by `refit` alone;
docs/placing.md lists its keys. Taking it away forgets the refits.
"""

import json
import os
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

from pydantic import TypeAdapter

from stitchpath.cli.file_bytes import read_bytes
from stitchpath.cli.folder import write_file
from stitchpath.errors import StitchpathError
from stitchpath.hoopings.refit import is_of, with_refits
from stitchpath.model.plan import Plan
from stitchpath.model.refit import Refit
from stitchpath.preview import plan_json

SCHEMA: Final = "stitchpath-refits-1"
_MOST_BYTES: Final = 10_000_000
_FARTHEST_MM: Final = 100_000
"""Ten times the longest side of a quilt: where a number is larger, something is wrong."""
_ADAPTER: Final = TypeAdapter(tuple[Refit, ...])
_UNREADABLE: Final = (
    ValueError,  # no JSON, or not of this schema; pydantic's error is one
    LookupError,
    TypeError,
    AttributeError,
    RecursionError,
)


def refits_path(project: Path) -> Path:
    """Return where a project's refits are kept.

    Example:
        >>> refits_path(Path("quilts/my-throw.toml")).as_posix()
        'quilts/my-throw.refits.json'
    """
    return project.with_name(f"{project.stem}.refits.json")


def load_refits(project: Path) -> tuple[Refit, ...]:
    """Return the refits that are kept beside a project; none where there is no file.

    Raises:
        StitchpathError: The file cannot be read, or is none of ours.
    """
    path = refits_path(project)
    if not os.path.lexists(path):
        return ()
    return read_refits(read_bytes(path, most=_MOST_BYTES), str(path))


def read_refits(data: bytes, name: str) -> tuple[Refit, ...]:
    """Return the refits of a file of refits.

    Args:
        data: The file's contents.
        name: The file's name, for messages.

    Raises:
        StitchpathError: It is none of ours.
    """
    try:
        return _ADAPTER.validate_python(_rows(_loaded(data)))
    except _UNREADABLE:
        raise StitchpathError(
            f"`{name}` is not a file of refits\n"
            "help: move it away, and refit again what is not sewn yet"
        ) from None


def keep_refit(project: Path, refit: Refit) -> None:
    """Add a refit to the file beside a project; one of the same hooping is replaced.

    Raises:
        StitchpathError: The file cannot be read or written.
    """
    others = [one for one in load_refits(project) if _key(one) != _key(refit)]
    rows = [_to_data(one) for one in sorted([*others, refit], key=_key)]
    data = plan_json({"schema": SCHEMA, "refits": rows})
    write_file(refits_path(project), data, replace=True)


def refitted(planned: Plan, refits: Iterable[Refit]) -> Plan:
    """Return a plan whose hoopings know what was refitted."""
    kept = tuple(refits)
    stages = tuple(with_refits(stage, kept) for stage in planned.stages)
    return replace(planned, stages=stages)


def refit_lines(planned: Plan, refits: Iterable[Refit]) -> list[str]:
    """Return what to say of refits: those that count, and those of an earlier plan."""
    lines = []
    for refit in refits:
        what = f"hooping {refit.number} of the stage {refit.stage} was refitted"
        if any(is_of(refit, stage) for stage in planned.stages):
            lines.append(
                f"{what} into `{refit.file}`: its marks move for hoopings that share them"
            )
        else:
            lines.append(f"{what}, but in another plan: this refit does not count")
    return lines


def _key(refit: Refit) -> tuple[str, int]:
    return refit.stage, refit.number


def _to_data(refit: Refit) -> dict[str, Any]:
    return {
        "stage": refit.stage,
        "hooping": refit.number,
        "file": refit.file,
        "field": list(refit.field),
        "planned_centre": list(refit.planned_centre),
        "planned_turn": refit.planned_turn_deg,
        "centre": list(refit.centre),
        "turn": refit.turn_deg,
        "scale": refit.scale,
        "marks": [
            {"name": mark.name, "piece": list(mark.piece), "field": list(mark.field)}
            for mark in refit.marks
        ],
    }


def _loaded(data: bytes) -> Any:  # noqa: ANN401 - whatever JSON can hold
    return json.loads(data, parse_float=_measure, parse_int=_whole, parse_constant=_measure)


def _measure(text: str) -> float:
    number = float(text)
    if not abs(number) <= _FARTHEST_MM:  # nor if it is no number
        raise ValueError(text)
    return number


def _whole(text: str) -> int:
    return int(_measure(text))


def _rows(data: Any) -> list[dict[str, Any]]:  # noqa: ANN401 - whatever JSON can hold
    if data["schema"] != SCHEMA:
        raise ValueError(data["schema"])
    return [_from_data(one) for one in data["refits"]]


def _from_data(data: Mapping[str, Any]) -> dict[str, Any]:
    same = ("stage", "file", "field", "planned_centre", "centre", "scale", "marks")
    return {name: data[name] for name in same} | {
        "number": data["hooping"],
        "planned_turn_deg": data["planned_turn"],
        "turn_deg": data["turn"],
    }
