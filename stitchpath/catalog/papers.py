"""Papers for true-scale sheets. A4: ISO 216. Letter: 8 1/2 x 11 in, ANSI/ASME Y14.1."""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet of paper: its name and its size in mm, upright."""

    name: str
    width: float
    height: float

    @property
    def summary(self) -> str:
        """One line for a listing."""
        return f"{self.width:g} x {self.height:g} mm"


PAPERS: Final[dict[str, Paper]] = {
    "a4": Paper(name="a4", width=210.0, height=297.0),
    "letter": Paper(name="letter", width=215.9, height=279.4),
}
