"""The pair of threads that a stage is sewn with."""

from typing import Annotated

from pydantic import Field
from pydantic.dataclasses import dataclass

from stitchpath.model.quantities import TABLE, Colour


@dataclass(frozen=True, slots=True, kw_only=True, config=TABLE)
class ThreadPair:
    """The threads of a stage."""

    top: Annotated[Colour, Field(description="top thread")] = "#4a4a48"
    bobbin: Annotated[Colour, Field(description="bobbin thread")] = "#4a4a48"
