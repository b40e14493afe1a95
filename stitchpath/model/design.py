"""Designs: stitch files that a project places on a piece, and what becomes of them."""

from dataclasses import dataclass as plain_dataclass
from dataclasses import field
from typing import Annotated, Any, Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray
from pydantic import BeforeValidator, Field, Strict, ValidationInfo
from pydantic.dataclasses import dataclass
from pydantic_core import PydanticCustomError

from stitchpath.model.quantities import TABLE, Kind, Length
from stitchpath.model.shape import Point, Shape, Size
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.thread import ThreadPair


@plain_dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DesignFile:
    """What a stitch file sews.

    Attributes:
        source: The file's name as the project gives it.
        stitches: In the file's own frame, in whole tenths of a mm; they begin with the move to
            the first needle point and end with the last one.
        stops: Rows that are stops with the same thread; any other pause is a change of colour.
        colours: Of its colour blocks as `#rrggbb`, where the file tells them.
        said: What in the file does not agree, a phrase each.
    """

    source: str
    stitches: Stitches
    stops: NDArray[np.intp] = field(default_factory=lambda: np.empty(0, dtype=np.intp))
    colours: tuple[str, ...] = ()
    said: tuple[str, ...] = ()

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its needle points, mm."""
        width, height = np.ptp(self.stitches.needle_points, axis=0).tolist()
        return round(width, 1), round(height, 1)

    @property
    def most_runs(self) -> int:
        """No fewer than the stretches that are sewn without cutting the thread."""
        return 1 + int(np.isin(self.stitches.op, (Op.CUT, Op.PAUSE)).sum())


def _read_design(value: object, info: ValidationInfo) -> DesignFile:
    """Read the stitch file of a name through the context's `load_design`, which knows files."""
    if isinstance(value, DesignFile):
        return value
    load = (info.context or {}).get("load_design")
    if not isinstance(value, str) or load is None:
        raise PydanticCustomError("design", "is not the name of a stitch file")
    try:
        design: DesignFile = load(value)
    except ValueError as fault:
        raise PydanticCustomError("design", "{why}", {"why": str(fault)}) from fault
    return design


DesignName: TypeAlias = Annotated[Any, BeforeValidator(_read_design), Kind("design")]
"""The stitches of a file beside the project."""


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Design:
    """A stitch file placed on a piece; places are mm from the piece's top left corner."""

    file: Annotated[DesignName, Field(description="stitch file that is sewn")]
    at: Annotated[
        Point | None,
        Field(description="where its middle lies; left out, in the middle of the area"),
    ] = None
    angle: Annotated[
        float,
        Strict(),
        Field(
            ge=-360,
            le=360,
            allow_inf_nan=False,
            description="degrees by which it is turned, clockwise as the piece lies",
        ),
    ] = 0.0
    mirror: Annotated[bool, Strict(), Field(description="turn it over, left for right")] = False
    width: Annotated[
        Size | None,
        Field(description="to which it is scaled, before it is turned; left out, as it is"),
    ] = None
    repeat: Annotated[
        Literal["single", "straight", "brick", "half-drop"],
        Field(description="once, in rows, or in rows or columns moved by half a step"),
    ] = "single"
    columns: Annotated[
        int | None,
        Strict(),
        Field(ge=1, le=200, description="copies across; left out, as many as lie in the area"),
    ] = None
    rows: Annotated[
        int | None,
        Strict(),
        Field(ge=1, le=200, description="copies down; left out, as many as lie in the area"),
    ] = None
    pitch: Annotated[
        tuple[Size, Size] | None,
        Field(description="from copy to copy across and down; left out, its own size"),
    ] = None
    area: Annotated[
        Shape | None, Field(description="where copies lie whole; left out, inside the edge")
    ] = None
    keep_clear: Annotated[
        Length,
        Field(ge=0, le=200, description="quilting ends so far from it; 0 for none that does"),
    ] = 0.0
    colours: Annotated[
        Literal["stop", "one"],
        Field(description="stop where the file changes colour, or sew all in one"),
    ] = "stop"
    thread: Annotated[
        ThreadPair | None,
        Field(description="thread of both sides; left out, that of the quilting"),
    ] = None


Way: TypeAlias = Literal["kept", "turned", "scaled"]
"""What became of a file's needle points: all kept, moved by rounding, or new ones."""


@plain_dataclass(frozen=True, slots=True, kw_only=True)
class SewnDesign:
    """What a design of a stage came to.

    Attributes:
        source: The file's name.
        copies: How often it is sewn.
        stitches: Needle points of the file, those that are left out not counted.
        runs: Stretches of it that are sewn without cutting the thread.
        left_out: Needle points left out because the thread is cut on both sides of each place.
        way: What became of its needle points.
        size: Width and height of a copy as it lies on the piece, mm.
        colours: Of the blocks that are sewn one after another, `""` where the file says none;
            the first is sewn with the stage's thread.
        said: What in the file does not agree.
        sewn: Needle points of all copies, with ties and what both sides of a join sew.
        ties: Needle points of ties added to them.
        divided: Copies that several hoopings share.
        divided_runs: Runs that a join divides.
    """

    source: str
    copies: int
    stitches: int
    runs: int
    left_out: int
    way: Way
    size: tuple[float, float]
    colours: tuple[str, ...] = ("",)
    said: tuple[str, ...] = ()
    sewn: int = 0
    ties: int = 0
    divided: int = 0
    divided_runs: int = 0
