"""The machine, as the project tells it: what it can reach, hold and do."""

from typing import Annotated, Final, Literal, TypeAlias

from pydantic import Field, Strict
from pydantic.dataclasses import dataclass

from stitchpath.model.quantities import TABLE, BobbinName, FormatName, GcodeLine, Length

SMALLEST_FIELD_MM: Final = 20.0
LARGEST_FIELD_MM: Final = 10_000.0
"""Of the sides of fields and rings."""
RIM_MM: Final = 20.0
"""From the field to the ring's outside where no ring is given: 10 mm from needle to ring, and
the ring itself. Common practice, no source."""
FOOT_RADIUS_MM: Final = 6.35
"""A round quilting foot is 1/2 in across, the needle in its middle (docs/sources.md)."""

FieldLength: TypeAlias = Annotated[Length, Field(ge=SMALLEST_FIELD_MM, le=LARGEST_FIELD_MM)]
FieldSize: TypeAlias = tuple[FieldLength, FieldLength]


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
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


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
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
    ] = FOOT_RADIUS_MM
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
