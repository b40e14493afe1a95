"""Findings: what a check has to say."""

from dataclasses import dataclass
from enum import StrEnum


class Level(StrEnum):
    """How bad a finding is, worst first."""

    ERROR = "error"
    """Cannot be sewn, or would hurt the machine."""
    WARNING = "warning"
    """Would sew badly."""
    NOTE = "note"
    """Good to know."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing a check has to say.

    Attributes:
        code: The check's name, such as `batting-gap`.
        level: How bad it is.
        text: One sentence for a maker, lengths in the project's unit.
        help: What to do about it; empty where nothing need be done.
        stage: The stage it speaks of; empty for the whole project.
        where: A place on the stage's piece, x and y in mm, or None.
        value: What was measured, in mm or a plain number; None where nothing is.
        limit: What it was measured against.
        silenced: Why the project silences it; empty where it does not.
    """

    code: str
    level: Level
    text: str
    help: str = ""
    stage: str = ""
    where: tuple[float, float] | None = None
    value: float | None = None
    limit: float | None = None
    silenced: str = ""

    @property
    def is_caution(self) -> bool:
        """Whether it is about staying safe; such notes are told apart from the others, last."""
        return self.code == "cautions"
