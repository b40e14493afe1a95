"""The project: what a maker measured and chose. The fields are the keys of the project file.

Every length is in mm here, whatever the file's unit; shares are fractions. The limits stand
beside the fields, so a `Project` that exists is within them.
"""

from typing import Annotated, Final, Literal, TypeAlias

from pydantic import ConfigDict, Field, Strict
from pydantic.dataclasses import dataclass

from stitchpath.model.checks import Checks
from stitchpath.model.design import Design
from stitchpath.model.quantities import (
    BobbinName,
    FormatName,
    GcodeLine,
    LayoutName,
    Length,
    Name,
    Share,
)
from stitchpath.model.shape import DrawingFile, Point, Shape, Size
from stitchpath.model.supplies import Supplies, Times
from stitchpath.model.thread import ThreadPair as ThreadPair  # noqa: PLC0414 - told on
from stitchpath.units import Unit

_FILE = ConfigDict(extra="forbid", validate_by_alias=True, validate_by_name=True)
"""By name for Python code, where `raise_` cannot be `raise`; files are read by alias alone."""

SMALLEST_FIELD_MM: Final = 20.0
LARGEST_FIELD_MM: Final = 10_000.0
"""Of the sides of fields and rings."""

LineLength: TypeAlias = Annotated[Length, Field(ge=0.5, le=12.0)]
PieceLength: TypeAlias = Annotated[Length, Field(ge=20, le=10_000)]
FieldLength: TypeAlias = Annotated[Length, Field(ge=SMALLEST_FIELD_MM, le=LARGEST_FIELD_MM)]
FieldSize: TypeAlias = tuple[FieldLength, FieldLength]
EdgeDistance: TypeAlias = Annotated[Length, Field(ge=0, le=200)]


RIM_MM: Final = 20.0
"""From the field to the ring's outside where no ring is given: 10 mm from needle to ring, and
the ring itself. Common practice, no source."""
FOOT_MM: Final = 6.35
"""A round quilting foot is 1/2 in across, the needle in its middle (docs/sources.md)."""


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
class Batting:
    """The filling, as its wrapper describes it."""

    quilting_distance: Annotated[
        Length, Field(ge=3, le=1000, description="the widest unquilted gap it allows")
    ] = 100.0
    thickness: Annotated[
        Length, Field(ge=0.1, le=40, description="of the sandwich under the stitch")
    ] = 3.0
    shrinkage: Annotated[
        Share, Field(ge=0, le=0.3, description="what washing takes off, in %")
    ] = 0.03


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
class Fabric:
    """The cloth of top, backing and pocket."""

    usable_width: Annotated[
        Length, Field(ge=100, le=5000, description="width between selvedges")
    ] = 1016.0
    shrinkage: Annotated[
        Share, Field(ge=0, le=0.3, description="what washing takes off, in %")
    ] = 0.03
    backing_width: Annotated[
        Length | None,
        Field(
            ge=100,
            le=5000,
            description="width of the backing cloth; left out, as of the others",
        ),
    ] = None
    directional: Annotated[
        bool, Strict(), Field(description="the print has an up: pieces are not turned")
    ] = False
    backing_from: Annotated[
        Literal["own", "top"], Field(description="the cloth the backing is cut from")
    ] = "own"
    pocket_from: Annotated[
        Literal["own", "top", "backing"], Field(description="the cloth the pocket is cut from")
    ] = "own"
    binding_from: Annotated[
        Literal["own", "top", "backing", "pocket"],
        Field(description="the cloth the binding is cut from"),
    ] = "own"
    binding_width: Annotated[
        Length, Field(ge=10, le=200, description="of a binding strip as it is cut")
    ] = 63.5
    hooping_margin: Annotated[
        Length,
        Field(ge=0, le=500, description="backing and batting beyond a bound quilt, each side"),
    ] = 50.8


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
class GcodeWords:
    """What the format `gcode` says besides places."""

    feed: Annotated[
        Length, Field(ge=10, le=100_000, description="how far it sews in a minute")
    ] = 1500.0
    needle_down: Annotated[
        GcodeLine, Field(description="words that put the needle or pen down")
    ] = "M3"
    needle_up: Annotated[GcodeLine, Field(description="words that lift the needle or pen")] = (
        "M5"
    )


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
class Machine:
    """What the machine can reach, hold and do."""

    field: Annotated[
        FieldSize,
        Field(description="width and height of what the needle can reach in the hoop"),
    ] = (200.0, 300.0)
    fields: Annotated[
        tuple[FieldSize, ...],
        Field(
            description="of several hoops, instead of `field`: the best is used for each place",
            min_length=0,
            max_length=8,
        ),
    ] = ()
    ring: Annotated[
        FieldSize | None,
        Field(description="outer width and height of the ring of the hoop with that `field`"),
    ] = None
    ring_wall: Annotated[
        Length, Field(ge=0, le=100, description="width of the ring itself, outside to inside")
    ] = 10.0
    ring_corner: Annotated[
        Length, Field(ge=0, le=1000, description="radius of the ring's inner corners")
    ] = 0.0
    foot: Annotated[
        Length, Field(ge=0, le=100, description="from the needle to the presser foot's edge")
    ] = FOOT_MM
    formats: Annotated[
        tuple[FormatName, ...],
        Field(min_length=1, max_length=20, description="which files to write for it"),
    ] = ("dst",)
    speed: Annotated[
        float,
        Strict(),
        Field(ge=50, le=3000, allow_inf_nan=False, description="stitches a minute"),
    ] = 600.0
    cuts_thread: Annotated[
        bool, Strict(), Field(description="false: the maker snips by hand")
    ] = True
    throat: Annotated[
        tuple[FieldLength, FieldLength],
        Field(description="width and height between needle and machine body"),
    ] = (228.6, 127.0)
    bobbin: Annotated[BobbinName, Field(description="the machine's bobbin")] = "L"
    longest_stitch: Annotated[Length, Field(ge=1, le=20, description="no stitch is longer")] = (
        7.0
    )
    shortest_stitch: Annotated[
        Length, Field(ge=0.3, le=5.0, description="no stitch but those of a tie is shorter")
    ] = 1.0
    bobbin_pull_up: Annotated[
        Literal["never", "seam", "always"],
        Field(description="one stitch and a pause at a start, to draw the bobbin thread up"),
    ] = "seam"
    gcode: GcodeWords = Field(
        default_factory=GcodeWords, description="feed and needle words of the format gcode"
    )

    @property
    def owned_fields(self) -> tuple[tuple[float, float], ...]:
        """The fields that may be used: `fields`, or `field` alone."""
        return tuple(dict.fromkeys(self.fields)) or (self.field,)

    def ring_of(self, field: tuple[float, float]) -> tuple[float, float]:
        """Return the outer size of a field's ring, mm: all rings have the same rim."""
        rim = (2 * RIM_MM, 2 * RIM_MM)
        if self.ring is not None:
            rim = (self.ring[0] - self.field[0], self.ring[1] - self.field[1])
        return field[0] + rim[0], field[1] + rim[1]

    def opening_of(self, ring: tuple[float, float]) -> tuple[float, float]:
        """Return the inner size of a ring, mm, from its outer one; 0 or more."""
        return max(ring[0] - 2 * self.ring_wall, 0.0), max(ring[1] - 2 * self.ring_wall, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
class HoopingRules:
    """How a stage is divided over hoopings."""

    overlap: Annotated[
        Length, Field(ge=0, le=50, description="sewn by both sides of a join")
    ] = 6.0
    turn: Annotated[
        bool, Strict(), Field(description="may the field be turned by 90 degrees")
    ] = True
    order: Annotated[
        Literal["middle", "rows"],
        Field(description="from the middle outwards, or row by row along the roll"),
    ] = "middle"
    room: Annotated[
        Length,
        Field(ge=0, le=30, description="kept clear inside each field, so that a refit fits"),
    ] = 0.0
    placing_error: Annotated[
        Length,
        Field(ge=0.05, le=5, description="how far off a mark the hoop usually lies"),
    ] = 0.7
    sew_marks: Annotated[
        bool, Strict(), Field(description="baste the placement marks instead of drawing them")
    ] = False
    basting_box: Annotated[
        bool, Strict(), Field(description="baste a box round each hooping's stitches first")
    ] = False


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
class RouteRules:
    """How the needle gets from line to line."""

    travel: Annotated[
        Literal["cut", "edge", "retrace"],
        Field(description="by a cut; also along edge lines; also over lines that are sewn"),
    ] = "edge"
    cut_seconds: Annotated[
        float, Strict(), Field(ge=0, le=600, description="worth of a cut by the machine")
    ] = 5.0
    snip_seconds: Annotated[
        float, Strict(), Field(ge=0, le=600, description="worth of a thread snipped by hand")
    ] = 15.0
    again_penalty: Annotated[
        float, Strict(), Field(ge=0, le=10, description="seconds for a mm sewn a second time")
    ] = 0.05
    parallel: Annotated[
        Literal["alternate", "same"],
        Field(description="sew parallel lines to and fro, or all in one direction"),
    ] = "alternate"
    close_loops: Annotated[
        bool,
        Strict(),
        Field(description="save cuts by loops closed round what is not sewn yet"),
    ] = False


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
class Sheets:
    """The true-scale sheets to print."""

    paper: Annotated[
        Literal["a4", "letter"], Field(description="what the templates are printed on")
    ] = "a4"


@dataclass(frozen=True, slots=True, kw_only=True, config=_FILE)
class Project:
    """One quilt, from its measurements."""

    quilt: Annotated[Quilt, Field(description="the quilt")]
    name: Annotated[Name, Field(description="printed on sheets and pictures")] = "Quilt"
    units: Annotated[Unit, Field(description="what a bare number means")] = "mm"
    pocket: Annotated[
        Pocket | None, Field(description="leave the table out for a quilt without a pocket")
    ] = None
    batting: Batting = Field(default_factory=Batting, description="the filling")
    fabric: Fabric = Field(default_factory=Fabric, description="the cloth")
    machine: Machine = Field(default_factory=Machine, description="the machine")
    hoopings: HoopingRules = Field(
        default_factory=HoopingRules, description="how a stage is divided over hoopings"
    )
    route: RouteRules = Field(
        default_factory=RouteRules, description="how the needle gets from line to line"
    )
    times: Times = Field(default_factory=Times, description="how long things take")
    supplies: Supplies = Field(default_factory=Supplies, description="the thread there is")
    sheets: Sheets = Field(default_factory=Sheets, description="the true-scale sheets to print")
    checks: Checks = Field(
        default_factory=Checks, description="limits of the checks, and what they leave unsaid"
    )

    def margin_of(self, piece: str) -> float:
        """Return how far backing and batting reach beyond a piece's finished edge, mm."""
        return self.fabric.hooping_margin * (piece == "quilt" and self.quilt.edge == "bound")
