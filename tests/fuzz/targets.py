"""What is fed with hostile bytes: each reader and parser, and what is done with what they read.

A target takes any bytes and returns; whatever it raises is a fault of ours.
"""

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass
from itertools import chain
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.outputs import make_outputs
from stitchpath.cli.refits import load_refits, refits_path
from stitchpath.errors import FormatError, StitchpathError
from stitchpath.estimate import count_stitches
from stitchpath.machine import StitchFile, read_stitch_file, sewn_part, stitch_file
from stitchpath.machine.library_read import NAMES, decode_by_library
from stitchpath.machine.read_file import Decode
from stitchpath.machine.rewrite import fit_to_format, losses
from stitchpath.machine.rows import FileStitches
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.model.thread import ThreadPair
from stitchpath.pipeline import plan, plan_stitches
from stitchpath.preview import draw_stitch_file
from stitchpath.project import starter_project
from stitchpath.project.keys import all_keys
from tests.support.hostile import (
    read_hostile_drawing,
    read_hostile_project,
    read_hostile_stitches,
)
from tests.support.kinds_of_files import KINDS, TEXT_KINDS, file_of_kind

_DESIGNS: Final = Path(__file__).parents[2] / "designs"
_OWN: Final = ("dst", "exp", "csv", "json")
_MARKED: Final = ("pes", "pec", "jef", "vp3", "u01", "xxx", "tbf", "hus")
_OTHERS: Final = tuple(sorted(set(NAMES.values()) - {*_OWN, *_MARKED}))
_MOST_PLANNED: Final = 3000
"""Needle points, and mm of a quilt's side, of what is planned: small ones are soon done."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """Something that hostile bytes are given to.

    Attributes:
        check: Takes any bytes; raises where there is a fault.
        seeds: Good inputs to begin with.
        words: What such inputs are made of.
    """

    check: Callable[[bytes], object]
    seeds: tuple[bytes, ...]
    words: tuple[bytes, ...] = ()


def _decode(data: bytes, name: str) -> FileStitches:
    """Read through the library in this process; what it takes too much for is refused."""
    try:
        return decode_by_library(data, name=name)
    except MemoryError:
        raise FormatError("reading it takes more memory than there is") from None


def _readers(names: tuple[str, ...]) -> Target:
    """Return the readers of some formats; the first byte says which."""

    def check(data: bytes) -> None:
        if data:
            name = names[data[0] % len(names)]
            _read(data[1:], name, _decode)

    seeds = [
        bytes([at]) + file_of_kind(kind)
        for at, name in enumerate(names)
        for kind in ([name] if name in {*KINDS, *TEXT_KINDS} else KINDS)
    ]
    return Target(check=check, seeds=tuple(seeds))


def _read(data: bytes, name: str, by_library: Decode) -> StitchFile | None:
    return read_hostile_stitches(
        lambda: read_stitch_file(data, f".{name}", by_library=by_library)
    )


def _refuse(_data: bytes, name: str) -> FileStitches:
    raise FormatError(f"{name} is read elsewhere")


def _write_again(data: bytes) -> None:
    """Read a dst file, draw it, write it in every format, and divide it over hoopings."""
    file = _read(data, "dst", _refuse)
    if file is None or len(file.read.op) > _MOST_PLANNED:
        return
    stitches = sewn_part(file.read)
    figures = count_stitches(stitches, Machine(), runs=1, thickness_mm=3)
    draw_stitch_file(stitches, figures, title="a.dst", facts=(), field=None)
    for name in FORMATS:
        _write_in(name, file)


def _write_in(name: str, file: StitchFile) -> None:
    stitches, format_ = sewn_part(file.read), FORMATS[name]
    losses(file.read, stitches, format_)
    fitted = fit_to_format(stitches, format_)
    hooping = Hooping(number=1, field=(100, 100), centre=(0.0, 0.0))
    with suppress(FormatError):
        stitch_file(fitted, hooping, format=format_, name="a", thread=ThreadPair())
    if name == "dst" and abs(stitches.xy).max() < _MOST_PLANNED:
        plan_stitches(
            fitted, Machine(field=(60, 80), formats=(name,)), name="a", thickness_mm=3
        )


def _make(data: bytes) -> None:
    """Read a project, and where it is small make its files in memory."""
    project = read_hostile_project(data)
    if project is None or max(project.quilt.width, project.quilt.length) > _MOST_PLANNED:
        return
    planned = plan(project)
    if not planned.has_errors and planned.figures.stitches <= _MOST_PLANNED:
        with suppress(FormatError):
            make_outputs(planned)


def _read_refits(data: bytes) -> None:
    with TemporaryDirectory() as folder:
        project = Path(folder) / "a.toml"
        refits_path(project).write_bytes(data)
        with suppress(StitchpathError):
            load_refits(project)


def _files(paths: Iterable[Path]) -> tuple[bytes, ...]:
    return tuple(path.read_bytes() for path in sorted(paths))


_KEYS: Final = tuple(dict.fromkeys(str(path[-1]).encode() for path, _ in all_keys()))
_PROJECT_WORDS: Final = (
    *_KEYS,
    *(b"[[", b"]]", b"= ", b'"""', b"'''", b'"1/4 in"', b"1e999", b"nan", b"-0", b"true"),
    *(b"{ ", b" }", b"0x", b"1979-05-27", b'"centre"', b'"edge"', b"mm", b"cm", b"in", b"%"),
)
_SMALL: Final = b"""quilt = { width = 120, length = 90, quilting = [
  { layout = "crosshatch", spacing = 30 } ] }
pocket = { width = 60, length = 50 }
machine = { field = [100, 100], formats = ["dst", "svg", "dxf", "gcode", "csv", "json"] }
"""
_DRAWING_WORDS: Final = (
    *(
        b"<path d=",
        b"<g>",
        b"</g>",
        b"<use href=",
        b"<svg ",
        b"<rect ",
        b"<symbol ",
        b"<style>",
    ),
    *(b"transform=", b"matrix(", b"rotate(", b"skewX(", b"viewBox=", b"style=", b"class="),
    *(b"preserveAspectRatio=", b"id=", b"display:none", b"<!DOCTYPE", b"&#0;", b"<![CDATA["),
    *(b"A1,1,0,0,1,", b"1e9", b"1e400", b"nan", b"em", b"%", b"mm", b"points=", b"#s"),
)
_REFITS: Final = b"""{"schema": "stitchpath-refits-1", "refits": [{
"stage": "quilt", "hooping": 1, "file": "a.dst", "field": [200, 300],
"planned_centre": [1, 2], "planned_turn": 90,
"centre": [1.5, 2], "turn": 90.2, "scale": 1, "marks": [
{"name": "A", "piece": [1, 2], "field": [3, 4]}]}]}"""

TARGETS: Final[dict[str, Target]] = {
    "own-readers": _readers(_OWN),
    "marked-readers": _readers(_MARKED),
    "other-readers": _readers(_OTHERS),
    "written-again": Target(check=_write_again, seeds=(file_of_kind("dst"),)),
    "project": Target(
        check=read_hostile_project,
        seeds=(
            *_files(_DESIGNS.glob("*.toml")),
            *(starter_project(unit).encode() for unit in ("mm", "in")),
        ),
        words=_PROJECT_WORDS,
    ),
    "made": Target(check=_make, seeds=(_SMALL,), words=_PROJECT_WORDS),
    "drawing": Target(
        check=read_hostile_drawing,
        seeds=_files(chain(_DESIGNS.rglob("*.svg"))),
        words=_DRAWING_WORDS,
    ),
    "refits": Target(check=_read_refits, seeds=(_REFITS,)),
}
"""By name."""
