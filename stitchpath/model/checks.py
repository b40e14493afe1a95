"""What a project sets for its checks: limits a maker may move, and checks to be quiet."""

from typing import Annotated

from pydantic import Field, Strict
from pydantic.dataclasses import dataclass

from stitchpath.model.quantities import TABLE, CheckName, Length, Name


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Silence:
    """A check that is to be quiet, and why. Errors are said all the same."""

    check: Annotated[CheckName, Field(description="the check to be quiet")]
    reason: Annotated[Name, Field(description="why, shown beside what it would have said")]


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Checks:
    """Limits of checks; what has no key of its own follows from the rest of the project."""

    needle_points: Annotated[
        int, Strict(), Field(ge=1, le=100, description="at most so many in a disc of 1 mm")
    ] = 4
    needle_points_tied: Annotated[
        int,
        Strict(),
        Field(ge=1, le=100, description="the same where a tie or a triangle is"),
    ] = 8
    passes: Annotated[
        int, Strict(), Field(ge=1, le=20, description="how often one place is sewn, at most")
    ] = 3
    passes_triangle: Annotated[
        int, Strict(), Field(ge=1, le=20, description="the same in a corner triangle")
    ] = 4
    snag: Annotated[
        Length, Field(ge=1, le=20, description="longer stitches catch on things")
    ] = 7.0
    closest: Annotated[
        Length, Field(ge=0.5, le=100, description="lines closer than this make a quilt stiff")
    ] = 6.0
    silence: Annotated[
        tuple[Silence, ...], Field(max_length=50, description="checks to be quiet")
    ] = ()
