"""The quilt and its pocket, as the project tells them: sizes, edges, quilting, seam."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, Strict
from pydantic.dataclasses import dataclass

from stitchpath.model.design import Design
from stitchpath.model.quantities import TABLE, LayoutName, Length, Share
from stitchpath.model.shape import DrawingFile, Point, Shape, Size
from stitchpath.model.thread import ThreadPair

LineLength: TypeAlias = Annotated[Length, Field(ge=0.5, le=12.0)]
PieceLength: TypeAlias = Annotated[Length, Field(ge=20, le=10_000)]
EdgeDistance: TypeAlias = Annotated[Length, Field(ge=0, le=200)]


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Quilting:
    """One quilting layout on a piece."""

    layout: Annotated[LayoutName, Field(description="the rule that makes the lines")] = (
        "crosshatch"
    )
    spacing: Annotated[
        Length, Field(ge=1, le=2000, description="distance between neighbouring lines")
    ] = 75.0
    start: Annotated[
        Literal["centre", "edge"], Field(description="where the spacing is measured from")
    ] = "centre"
    angle: Annotated[
        float,
        Strict(),
        Field(
            ge=-360,
            le=360,
            allow_inf_nan=False,
            description="degrees by which the layout is turned, clockwise as the piece lies",
        ),
    ] = 0.0
    margin: Annotated[
        Length, Field(ge=0, le=2000, description="kept clear inside the area's edge")
    ] = 0.0
    area: Annotated[
        Shape | None, Field(description="where the layout lies; left out, on the whole piece")
    ] = None
    keep_out: Annotated[
        tuple[Shape, ...], Field(description="shapes the layout keeps clear of", max_length=50)
    ] = ()
    fit: Annotated[
        bool,
        Strict(),
        Field(description="stretch the layout so that whole repeats fill the area"),
    ] = False
    fit_limit: Annotated[
        Share, Field(ge=0, le=0.5, description="how far `fit` may stretch it")
    ] = 0.1
    gap: Annotated[
        Length | None, Field(ge=1, le=500, description="between the lines of a close group")
    ] = None
    count: Annotated[
        int | None, Strict(), Field(ge=1, le=500, description="how many, see the layout")
    ] = None
    period: Annotated[
        Length | None, Field(ge=2, le=5000, description="length of one wave or repeat")
    ] = None
    amplitude: Annotated[
        Length | None, Field(ge=0.1, le=2000, description="height of a wave above its middle")
    ] = None
    seed: Annotated[
        int, Strict(), Field(ge=0, le=1_000_000, description="another number, another scatter")
    ] = 1
    text: Annotated[
        str, Strict(), Field(max_length=200, description="what the layout text writes")
    ] = ""
    height: Annotated[
        Length | None, Field(ge=3, le=1000, description="height of capital letters")
    ] = None
    svg: Annotated[
        DrawingFile | None, Field(description="an SVG file whose strokes the layout motif sews")
    ] = None
    width: Annotated[Size | None, Field(description="to which a motif is scaled")] = None
    at: Annotated[
        Point | None, Field(description="where the middle of a text or single motif lies")
    ] = None
    repeat: Annotated[
        Literal["single", "straight", "half-drop", "mirrored", "border"],
        Field(description="how a motif is repeated"),
    ] = "single"
    stitch_length: Annotated[
        LineLength, Field(description="chosen stitch length on the lines")
    ] = 2.8
    thread: ThreadPair = Field(default_factory=ThreadPair, description="thread of both sides")


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Quilt:
    """The quilt: its finished size, its edge, its quilting."""

    width: Annotated[PieceLength, Field(description="finished width")]
    length: Annotated[PieceLength, Field(description="finished length")]
    edge: Annotated[
        Literal["turned", "bound"], Field(description="how the edge is finished")
    ] = "turned"
    seam_allowance: Annotated[
        EdgeDistance, Field(description="cloth outside the finished edge")
    ] = 6.35
    edge_stitch: Annotated[
        EdgeDistance, Field(description="a line round the finished edge; 0 for none")
    ] = 7.9375
    quilting: Annotated[
        tuple[Quilting, ...],
        Field(description="layouts; an empty list for none", max_length=50),
    ] = (Quilting(),)
    design: Annotated[
        tuple[Design, ...], Field(description="stitch files placed on it", max_length=50)
    ] = ()


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class PocketSeam:
    """The seam that sews the pocket on along three sides, and its two corner triangles."""

    inset: Annotated[
        Length,
        Field(ge=0.5, le=50, description="the seam's distance from the pocket's finished edge"),
    ] = 4.7625
    corner_side: Annotated[
        Length, Field(ge=3, le=100, description="the triangle's leg down the side")
    ] = 22.225
    corner_across: Annotated[
        Length, Field(ge=3, le=100, description="the triangle's leg along the mouth")
    ] = 12.7
    passes: Annotated[
        int, Strict(), Field(ge=1, le=5, description="how often a leg is sewn, at the most")
    ] = 3
    sew: Annotated[
        Literal["sides", "corners"],
        Field(description="all three sides, or the two corner triangles alone"),
    ] = "sides"
    stitch_length: Annotated[
        LineLength, Field(description="chosen stitch length on the seam")
    ] = 2.5
    load: Annotated[
        float | None,
        Strict(),
        Field(
            ge=0.1,
            le=1000,
            allow_inf_nan=False,
            description="kilograms that the pocket is to be carried with",
        ),
    ] = None
    thread_strength: Annotated[
        float | None,
        Strict(),
        Field(
            ge=0.5,
            le=500,
            allow_inf_nan=False,
            description="newtons that break the weaker thread; 1 lb is 4.4 N",
        ),
    ] = None
    fibre: Annotated[
        Literal["cotton", "spun polyester", "core-spun polyester"],
        Field(description="of the thread, where its strength is not given"),
    ] = "cotton"
    thread: ThreadPair = Field(default_factory=ThreadPair, description="thread of both sides")


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Pocket:
    """The pocket, centred near the quilt's bottom edge, its mouth towards the middle."""

    width: Annotated[PieceLength, Field(description="finished width")] = 400.0
    length: Annotated[PieceLength, Field(description="finished length, mouth to foot")] = 400.0
    raise_: Annotated[
        EdgeDistance,
        Field(alias="raise", description="the pocket's foot above the quilt's bottom edge"),
    ] = 9.525
    mouth_stitch: Annotated[
        EdgeDistance, Field(description="a line across the mouth; 0 for none")
    ] = 7.9375
    quilting: Annotated[
        tuple[Quilting, ...],
        Field(description="layouts; an empty list for none", max_length=50),
    ] = (Quilting(layout="diagonal", spacing=45.0),)
    design: Annotated[
        tuple[Design, ...], Field(description="stitch files placed on it", max_length=50)
    ] = ()
    seam: PocketSeam = Field(
        default_factory=PocketSeam, description="how the pocket is sewn on"
    )
