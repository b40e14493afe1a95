"""A made folder as someone else would read it: plan.json and the stitch files, no code of ours.

dst files are read by an independent decoder; the other formats by the library that is commonly
used for them.
"""

import hashlib
import io
import json
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, TypeAlias

import numpy as np
import pyembroidery
import shapely
from numpy.typing import NDArray

from stitchpath.cli.make import make_project
from tests.support.dst_record import decode_body

Array: TypeAlias = NDArray[np.float64]

_CUT_RECORDS = 3
"""So many jump records in a row stand for a cut in dst; see docs/formats.md."""
_TENTHS = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Sewn:
    """What a stitch file makes a machine do.

    Attributes:
        tenths: Needle points, shape (n, 2), tenths of a mm in the field, y down.
        starts: Whether thread is not sewn to the point: the first, or after a jump or cut.
        cuts: Thread cuts.
        jumps: Moves without sewing.
        pauses: Indices of the needle points that a pause comes before.
    """

    tenths: NDArray[np.int64]
    starts: NDArray[np.bool_]
    cuts: int
    jumps: int
    pauses: tuple[int, ...]

    @property
    def xy(self) -> Array:
        """The needle points in mm."""
        return self.tenths / _TENTHS

    def paths(self, points: Array) -> list[Array]:
        """Part the needle points, wherever they were moved to, into what is sewn in one go."""
        return np.split(points, np.flatnonzero(self.starts)[1:])


@dataclass(frozen=True, slots=True, kw_only=True)
class Hooped:
    """One hooping: what plan.json says of it, and what its file holds."""

    said: dict[str, Any]
    stage: dict[str, Any]
    sewn: Sewn

    @property
    def on_piece(self) -> Array:
        """The lasting needle points on the piece: `piece = centre + R . file`."""
        turn = np.radians(self.said["turn"])
        cos, sin = np.cos(turn), np.sin(turn)
        rotation = np.array([[cos, -sin], [sin, cos]])
        return np.asarray(self.lasting.xy @ rotation.T + self.said["centre"])

    @property
    def paths(self) -> list[Array]:
        """What is sewn in one go, on the piece."""
        return self.lasting.paths(self.on_piece)

    @property
    def lasting(self) -> Sewn:
        """What stays in the quilt: without the basting that comes first, up to its pause."""
        first = self.said["basting"]["stitches"]
        assert first == 0 or first in self.sewn.pauses
        return replace(
            self.sewn,
            tenths=self.sewn.tenths[first:],
            starts=self.sewn.starts[first:],
            pauses=tuple(pause - first for pause in self.sewn.pauses if first < pause),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeFolder:
    """A made folder."""

    folder: Path
    plan: dict[str, Any]

    @classmethod
    def at(cls, folder: Path) -> "MadeFolder":
        """Read plan.json."""
        text = (folder / "plan.json").read_text(encoding="utf-8")
        return cls(folder=folder, plan=json.loads(text))

    def hashes(self) -> dict[str, str]:
        """Return the SHA-256 of every file that is there, but plan.json itself."""
        return {
            path.relative_to(self.folder).as_posix(): hashlib.sha256(
                path.read_bytes()
            ).hexdigest()
            for path in self.folder.rglob("*")
            if path.is_file() and path.name != "plan.json"
        }

    def hooped(self) -> Iterator[Hooped]:
        """Yield every hooping with what one of its files holds: the dst, or else the first."""
        for stage in self.plan["stages"]:
            for said in stage["hoopings"]:
                yield Hooped(said=said, stage=stage, sewn=self.read(said))

    def read(self, hooping: dict[str, Any]) -> Sewn:
        """Read a hooping's dst file, or the first of its others."""
        files = hooping["files"]
        suffix = "dst" if "dst" in files else next(iter(files))
        return read_stitch_file(self.folder / files[suffix])


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A design, as its file says it, and the folder that was made from it."""

    design: dict[str, Any]
    made: MadeFolder
    hooped: list[Hooped]


def make_design(project: Path, out: Path) -> Made:
    """Run the command on a project file, and read what it made."""
    assert make_project(project, out, as_json=True) == 0
    made = MadeFolder.at(out)
    design = tomllib.loads(project.read_text(encoding="utf-8"))
    return Made(design=design, made=made, hooped=list(made.hooped()))


def read_stitch_file(path: Path) -> Sewn:
    """Read a stitch file of any of the seven formats."""
    data = path.read_bytes()
    return _read_dst(data) if path.suffix == ".dst" else _read_other(data, path.suffix)


def lines_of(stage: dict[str, Any]) -> list[shapely.LineString]:
    """Return a stage's designed lines."""
    return [shapely.LineString(line["points"]) for line in stage["lines"]]


def _read_dst(data: bytes) -> Sewn:
    rows, at = [], np.zeros(2, dtype=np.int64)
    for record in decode_body(data):
        at = np.add(at, (record.dx, -record.dy))
        rows.append((record.kind, at))
    assert rows.pop()[0] == "end"
    return _sewn(rows)


def _read_other(data: bytes, suffix: str) -> Sewn:
    kinds = {
        pyembroidery.STITCH: "stitch",
        pyembroidery.JUMP: "jump",
        pyembroidery.TRIM: "cut",
        pyembroidery.STOP: "colour",
        pyembroidery.COLOR_CHANGE: "colour",
        pyembroidery.NEEDLE_SET: "colour",
    }
    reader = getattr(pyembroidery.EmbPattern, f"read_{suffix[1:]}")
    settings = {"trims": True, "trim_distance": None} if suffix == ".jef" else None
    rows = [
        (kinds[command & pyembroidery.COMMAND_MASK], np.rint([x, y]).astype(np.int64))
        for x, y, command in reader(io.BytesIO(data), settings).stitches
        if command & pyembroidery.COMMAND_MASK in kinds
    ]
    return _sewn(rows)


def _sewn(rows: list[tuple[str, NDArray[np.int64]]]) -> Sewn:
    """Sort what stands between needle points into cuts, jumps and pauses."""
    points: list[NDArray[np.int64]] = []
    starts: list[bool] = []
    pauses: list[int] = []
    cuts = jumps = 0
    between: list[str] = ["jump"]  # before the first point the needle moves, be it by nothing
    for kind, at in rows:
        if kind != "stitch":
            between.append(kind)
            continue
        records = between.count("jump")
        starts.append(records > 0 or "cut" in between)
        if points:
            cuts += records >= _CUT_RECORDS or "cut" in between
        pauses += [len(points)] * between.count("colour")
        jumps += starts[-1]
        points.append(at)
        between = []
    return Sewn(
        tenths=np.array(points),
        starts=np.array(starts),
        cuts=cuts,
        jumps=jumps,
        pauses=tuple(pauses),
    )
