"""What is fed with hostile bytes: each reader and parser, and what is done with what they read.

A target takes any bytes and returns; whatever it raises is a fault of ours.
"""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from typing import Final
from unittest.mock import patch

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli import side_by_side
from stitchpath.cli.order import sewing_order
from stitchpath.cli.outputs import make_outputs
from stitchpath.cli.refits import read_refits, refit_lines, refitted
from stitchpath.errors import FormatError, StitchpathError
from stitchpath.estimate import count_stitches
from stitchpath.machine import StitchFile, read_stitch_file, sewn_part, stitch_file
from stitchpath.machine.library_read import NAMES, decode_by_library
from stitchpath.machine.rewrite import fit_to_format, losses
from stitchpath.machine.rows import FileStitches
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan
from stitchpath.model.thread import ThreadPair
from stitchpath.pipeline import plan, plan_stitches
from stitchpath.preview import draw_stitch_file, plan_data, plan_json
from stitchpath.preview.data import Files
from tests.fuzz.first_inputs import (
    DRAWING_WORDS,
    DRAWINGS,
    PROJECT_WORDS,
    PROJECTS,
    REFIT_WORDS,
    REFITS,
    REFITTED,
    WITH_FORMATS,
    WITH_LAYOUTS,
    WITH_POCKET,
)
from tests.support.hostile import (
    read_hostile_drawing,
    read_hostile_project,
    read_hostile_stitches,
)
from tests.support.hostile_designs import WAYS, plan_hostile_design, plan_hostile_drawing
from tests.support.kinds_of_files import KINDS, TEXT_KINDS, file_of_kind

_OWN: Final = ("dst", "exp", "csv", "json")
_MARKED: Final = ("pes", "pec", "jef", "vp3", "u01", "xxx", "tbf", "hus")
_OTHERS: Final = tuple(sorted(set(NAMES.values()) - {*_OWN, *_MARKED}))
_MOST_POINTS: Final = 3000
"""Needle points of what is written and drawn: small ones are soon done."""
_LARGEST_MM: Final = 600
"""The longest side of what is planned, for the same reason."""
_FARTHEST_MM: Final = 500
"""The farthest needle point from the middle of what is divided over hoopings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """Something that hostile bytes are given to.

    Attributes:
        check: Takes any bytes; raises where there is a fault. What it returns is None where
            they were refused.
        first: Good inputs to begin with.
        words: What such inputs are made of.
    """

    check: Callable[[bytes], object]
    first: tuple[bytes, ...]
    words: tuple[bytes, ...] = ()


def _decode(data: bytes, name: str) -> FileStitches:
    """Read through the library in this process; what it takes too much for is refused."""
    try:
        return decode_by_library(data, name=name)
    except MemoryError:
        raise FormatError("reading it takes more memory than there is") from None


def _readers(names: tuple[str, ...]) -> Target:
    """Return the readers of some formats; the first byte says which."""

    def check(data: bytes) -> StitchFile | None:
        return _read(data[1:], names[data[0] % len(names)]) if data else None

    first = [
        bytes([at]) + file_of_kind(kind)
        for at, name in enumerate(names)
        for kind in ([name] if name in {*KINDS, *TEXT_KINDS} else KINDS)
    ]
    return Target(check=check, first=tuple(first))


def _read(data: bytes, name: str) -> StitchFile | None:
    return read_hostile_stitches(lambda: _by_suffix(data, f".{name}"))


def _by_suffix(data: bytes, suffix: str) -> StitchFile:
    return read_stitch_file(data, suffix, by_library=_decode)


def _write_again(data: bytes) -> StitchFile | None:
    """Read a file and do one thing with it; the first byte says by which reader, and what."""
    if not data:
        return None
    what, reader = divmod(data[0], len(_OWN))
    file = _read(data[1:], _OWN[reader])
    if file is not None and len(file.read.op) <= _MOST_POINTS:
        _DOINGS[what % len(_DOINGS)](file)
    return file


def _draw_file(file: StitchFile) -> None:
    stitches = sewn_part(file.read)
    figures = count_stitches(stitches, Machine(), runs=1, thickness_mm=3)
    draw_stitch_file(stitches, figures, title="a.dst", facts=(), field=None)


def _divide(file: StitchFile) -> None:
    """Divide a file over hoopings, where it is no larger than a quilt."""
    stitches = sewn_part(file.read)
    if abs(stitches.xy).max() < _FARTHEST_MM:
        fitted = fit_to_format(stitches, FORMATS["dst"])
        machine = Machine(field=(60, 80), formats=("dst",))
        plan_stitches(fitted, machine, name="a", thickness_mm=3)


def _write_in(file: StitchFile, name: str) -> None:
    stitches, format_ = sewn_part(file.read), FORMATS[name]
    losses(file.read, stitches, format_)
    fitted = fit_to_format(stitches, format_)
    hooping = Hooping(number=1, field=(100, 100), centre=(0.0, 0.0))
    with suppress(FormatError):
        stitch_file(fitted, hooping, format=format_, name="a", thread=ThreadPair())


_DOINGS: Final[tuple[Callable[[StitchFile], None], ...]] = (
    *(_draw_file, _divide),
    *(partial(_write_in, name=name) for name in FORMATS),
)


def _place(data: bytes) -> Plan | None:
    """Place a file as a design; the first byte says by which reader, and how."""
    if not data:
        return None
    how, reader = divmod(data[0], len(_OWN))
    way = WAYS[how % len(WAYS)]
    return plan_hostile_design(data[1:], f".{_OWN[reader]}", way, _by_suffix)


def _planned(data: bytes) -> Plan | None:
    """Return the plan of a project, where it is small."""
    project = read_hostile_project(data)
    if project is None or max(project.quilt.width, project.quilt.length) > _LARGEST_MM:
        return None
    return plan(project)


def _make(data: bytes) -> Plan | None:
    """Read a project, and where it is small make its files in memory, in this process."""
    planned = _planned(data)
    if planned and not planned.has_errors and planned.figures.stitches <= _MOST_POINTS:
        alone = patch.object(side_by_side, "MOST_PROCESSES", 1)
        with alone, suppress(FormatError):
            make_outputs(planned)
    return planned


_FILES: Final[Files] = {
    (stage.name, sewn.hooping.number): {"dst": "a.dst"}
    for stage in REFITTED.stages
    for sewn in stage.hoopings
}


def _refit(data: bytes) -> Plan | None:
    """Read refits and make them known to a plan."""
    try:
        refits = read_refits(data, "a.refits.json")
    except StitchpathError:
        return None
    refit_lines(REFITTED, refits)
    known = refitted(REFITTED, refits)
    plan_json(plan_data(known, _FILES))
    sewing_order(known, _FILES).encode()
    return known


def _own_files(*, ways: int) -> tuple[bytes, ...]:
    """Return a file of each own format for each way; the first byte says way and format."""
    return tuple(
        bytes([way * len(_OWN) + at]) + file_of_kind(name)
        for way in range(ways)
        for at, name in enumerate(_OWN)
    )


TARGETS: Final[dict[str, Target]] = {
    "own-readers": _readers(_OWN),
    "marked-readers": _readers(_MARKED),
    "other-readers": _readers(_OTHERS),
    "written-again": Target(
        check=_write_again,
        first=_own_files(ways=len(_DOINGS)),
    ),
    "placed": Target(
        check=_place,
        first=_own_files(ways=len(WAYS)),
    ),
    "project": Target(check=read_hostile_project, first=PROJECTS, words=PROJECT_WORDS),
    "planned": Target(check=_planned, first=WITH_LAYOUTS, words=PROJECT_WORDS),
    "made": Target(check=_make, first=(*WITH_FORMATS, WITH_POCKET), words=PROJECT_WORDS),
    "drawing": Target(check=read_hostile_drawing, first=DRAWINGS, words=DRAWING_WORDS),
    "motif": Target(check=plan_hostile_drawing, first=DRAWINGS, words=DRAWING_WORDS),
    "refits": Target(check=_refit, first=REFITS, words=REFIT_WORDS),
}
"""By name."""
