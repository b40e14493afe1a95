"""Legs and trails: parts of lines, and walks made of them."""

from dataclasses import dataclass, replace
from typing import TypeAlias


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """A part of a line, by distances along it in mm; against the line where `start` > `end`.

    Attributes:
        line: Index of the line.
        start: Where the leg begins.
        end: Where it ends.
        nodes: The nodes at its start and end.
        again: Whether it goes over what is sewn anyway.
    """

    line: int
    start: float
    end: float
    nodes: tuple[int, int]
    again: bool = False

    def reversed(self) -> "Leg":
        """Return the leg the other way round."""
        return replace(self, start=self.end, end=self.start, nodes=self.nodes[::-1])


Trail: TypeAlias = list[Leg]
"""Legs that follow on one another: each begins on the node where the one before ends."""
