"""The project: what a maker measured and chose. The fields are the keys of the project file.

Every length is in mm here, whatever the file's unit; shares are fractions. The limits stand
beside the fields, so a `Project` that exists is within them.
"""

from typing import Annotated, Literal

from pydantic import Field, Strict
from pydantic.dataclasses import dataclass

from stitchpath.model.checks import Checks
from stitchpath.model.machine import Machine
from stitchpath.model.quantities import TABLE, Length, Name, Share
from stitchpath.model.quilt import Pocket, Quilt
from stitchpath.model.supplies import Supplies, Times
from stitchpath.units import Unit


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Sheets:
    """The true-scale sheets to print."""

    paper: Annotated[
        Literal["a4", "letter"], Field(description="what the templates are printed on")
    ] = "a4"


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
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
