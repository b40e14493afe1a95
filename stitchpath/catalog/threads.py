"""Thread sizes: how the ways of writing them convert, and the common ones.

Tex is grams of 1000 m; dtex ten times, denier nine times as much (grams of 9000 m); wt and Nm
are km to the kg; Ne is hanks of 840 yd to the lb, 590.5 / tex (see docs/sources.md). A label
such as 50/3 means three plies of Ne 50, which is tex 35 and no 50 wt.
"""

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

GRAMS_PER_LB: Final = 453.59237
"""The pound exactly (international yard and pound agreement, 1959)."""
METRES_PER_HANK: Final = 840 * 0.9144
NE_TEX: Final = 1000 * GRAMS_PER_LB / METRES_PER_HANK
"""590.54: Ne times tex."""
_PER_TEX: Final[dict[str, float]] = {"tex": 1.0, "dtex": 10.0, "denier": 9.0}

ThreadUnit: TypeAlias = Literal["tex", "dtex", "denier", "wt", "Nm", "Ne"]


def to_tex(size: float, unit: ThreadUnit, *, plies: int = 1) -> float:
    """Return a thread's size in tex.

    Args:
        size: The number as it is written, of one ply; > 0.
        unit: What the number counts.
        plies: How many of these are twisted together, as in 40/2.

    Example:
        >>> round(to_tex(40, "Ne", plies=2), 1), to_tex(50, "wt"), to_tex(180, "denier")
        (29.5, 20.0, 20.0)
    """
    if unit in _PER_TEX:
        return plies * size / _PER_TEX[unit]
    return plies * (NE_TEX if unit == "Ne" else 1000.0) / size


def from_tex(tex: float, unit: ThreadUnit) -> float:
    """Return a size in tex as another unit has it; the inverse of `to_tex` for one ply.

    Example:
        >>> from_tex(20, "wt"), round(from_tex(20, "Ne"), 1)
        (50.0, 29.5)
    """
    if unit in _PER_TEX:
        return tex * _PER_TEX[unit]
    return (NE_TEX if unit == "Ne" else 1000.0) / tex


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A thread by the number on its label, and its tex."""

    name: str
    tex: float

    @property
    def summary(self) -> str:
        """One line for a listing."""
        denier, count = from_tex(self.tex, "denier"), from_tex(self.tex, "Ne")
        return f"tex {self.tex:.1f}, {denier:.0f} denier, Ne {count:.1f}"


THREADS: Final[tuple[Thread, ...]] = (
    *(
        Thread(name=f"{wt} wt", tex=to_tex(wt, "wt"))
        for wt in (12, 28, 30, 40, 50, 60, 80, 100)
    ),
    *(
        Thread(name=f"{count}/{plies}", tex=to_tex(count, "Ne", plies=plies))
        for count, plies in ((40, 3), (50, 3), (40, 2), (50, 2), (60, 2))
    ),
)
"""By wt, then by cotton count and plies, each from thick to fine."""
