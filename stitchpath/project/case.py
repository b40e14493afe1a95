"""One error of pydantic's, with what is known about its key."""

from dataclasses import dataclass

from stitchpath.project.fault import Path, key_path
from stitchpath.project.keys import Key
from stitchpath.project.wording import limits_text
from stitchpath.units import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One error of pydantic's.

    Attributes:
        error: Its type, by pydantic's name or by ours for what the model reads itself.
        why: What it says.
        path: Where the value stands.
        value: The value.
        typed: As it stands in the file, clipped to a line.
        key: What the value belongs to.
        unit: The project's unit.
    """

    error: str
    why: str
    path: Path
    value: object
    typed: str
    key: Key
    unit: Unit

    @property
    def name(self) -> str:
        """The key as it is called in a message."""
        return f"`{key_path(self.path)}`"

    @property
    def limits(self) -> str:
        """What the key takes."""
        return f"must be {limits_text(self.key, self.unit)}"
