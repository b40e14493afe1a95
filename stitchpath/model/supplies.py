"""The maker's own figures: how long things take, and the thread. Keys of the project file.

Minutes, seconds, hours, metres and tex stand in the keys' names: they are no lengths on cloth.
"""

from typing import Annotated, Final, TypeAlias

from pydantic import Field, Strict
from pydantic.dataclasses import dataclass

from stitchpath.model.quantities import TABLE, Share

FACTOR_LIMITS: Final = (0.1, 2.0)
"""How far a machine can be from its set speed; beyond, something else was timed."""

Minutes: TypeAlias = Annotated[float, Strict(), Field(ge=0, le=240, allow_inf_nan=False)]
Seconds: TypeAlias = Annotated[float, Strict(), Field(ge=0, le=600, allow_inf_nan=False)]


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Times:
    """How long things take at this machine, with this maker."""

    speed_factor: Annotated[
        float,
        Strict(),
        Field(
            ge=FACTOR_LIMITS[0],
            le=FACTOR_LIMITS[1],
            allow_inf_nan=False,
            description="how fast it sews beside the estimate; `count --timed` finds it",
        ),
    ] = 1.0
    ramp_stitches: Annotated[
        int, Strict(), Field(ge=0, le=100, description="sewn at half speed after each start")
    ] = 8
    cut_seconds: Annotated[Seconds, Field(description="a thread cut by the machine")] = 5.0
    snip_seconds: Annotated[Seconds, Field(description="a thread snipped by hand")] = 15.0
    pause_seconds: Annotated[Seconds, Field(description="a stop to draw thread up")] = 20.0
    thread_minutes: Annotated[Minutes, Field(description="changing the top thread")] = 1.0
    bobbin_minutes: Annotated[Minutes, Field(description="changing the bobbin")] = 2.0
    hooping_minutes: Annotated[Minutes, Field(description="putting the hoop on")] = 5.0
    placing_minutes: Annotated[
        Minutes, Field(description="lining a hooping up with its marks")
    ] = 3.0
    evening_hours: Annotated[
        float,
        Strict(),
        Field(ge=0.25, le=24, allow_inf_nan=False, description="at the machine in one go"),
    ] = 2.0


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class Supplies:
    """The thread there is."""

    thread_tex: Annotated[
        float,
        Strict(),
        Field(
            ge=5,
            le=200,
            allow_inf_nan=False,
            description="grams of 1000 m of thread; `list threads` converts wt",
        ),
    ] = 20.0
    thread_waste: Annotated[
        Share, Field(ge=0, le=1, description="thread bought on top, for tails and trials")
    ] = 0.15
    spool_metres: Annotated[
        float,
        Strict(),
        Field(ge=10, le=20_000, allow_inf_nan=False, description="thread on one spool"),
    ] = 500.0
