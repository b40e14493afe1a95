"""What the ways of travelling cost, in seconds."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from stitchpath.model.line import Line, LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.project import RouteRules

Travel: TypeAlias = Literal["cut", "edge", "retrace"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """Costs in the maker's terms.

    Attributes:
        travel: How the needle may get from line to line: by a cut alone; also along edge lines,
            which are there anyway; also over quilting lines that are sewn.
        cut_seconds: A cut, with its ties, tails and start.
        penalty_per_mm: Seconds that a maker would give not to have a mm sewn twice.
        speed: Stitches a minute.
        same_direction: Sew parallel lines all one way, which avoids shear, rather than to and
            fro, which avoids travel.
        closes_loops: Join lines that a later set still crosses, which closes loops round what
            is not sewn yet, but saves cuts.
    """

    travel: Travel = "edge"
    cut_seconds: float = 5.0
    penalty_per_mm: float = 0.05
    speed: float = 600.0
    same_direction: bool = False
    closes_loops: bool = False

    def again_per_mm(self, line: Line) -> float | None:
        """Return what a mm of a line sewn again costs, or None where that is not allowed."""
        is_edge = line.kind in {LineKind.EDGE, LineKind.MOUTH}
        if self.travel == "cut" or line.kind is LineKind.SEAM:
            return None
        if self.travel == "edge" and not is_edge:
            return None
        return 60 / (self.speed * line.stitch_mm) + self.penalty_per_mm


def find_costs(rules: RouteRules, machine: Machine) -> Costs:
    """Return the costs that a project's rules and machine give."""
    return Costs(
        travel=rules.travel,
        cut_seconds=rules.cut_seconds if machine.cuts_thread else rules.snip_seconds,
        penalty_per_mm=rules.again_penalty,
        speed=machine.speed,
        same_direction=rules.parallel == "same",
        closes_loops=rules.close_loops,
    )
