"""Stitch formats: what each can hold. Formats are called by their file extension.

The figures were measured on the reading and writing library (pyembroidery 1.5.1) by writing and
reading back; docs/formats.md says how, and what no such measurement can show.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

from stitchpath.geometry.tolerance import GRID_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """One stitch format.

    Attributes:
        name: The file extension without its dot.
        longest_step_units: Longest stitch or jump record along either axis, in tenths of a mm.
        pause: How a pause survives: as a stop of its own, or only as a change of colour (a
            machine with several needles may then just take the next needle).
        cut_records: So many jump records in a row are taken for a thread cut, or None where a
            jump never is.
        keeps_jumps: Whether an uncut jump stays apart from a stitch.
        stores_colour: Whether the thread's colour is in the file.
        name_length: Characters of the design's name kept inside the file; 0 for none.
        farthest_units: How far from the field's centre the file can say, in tenths of a mm.
        most_in_a_run: Most stitches between two thread cuts, jumps or pauses, or None.
        most_pauses: Most pauses in one file, or None.
        most_records: Most stitches, moves and cuts in one file, or None.
        summary: One line for a list.
    """

    name: str
    longest_step_units: int
    pause: Literal["stop", "colour"]
    cut_records: int | None = None
    keeps_jumps: bool = True
    stores_colour: bool = False
    name_length: int = 0
    farthest_units: int = 100_000
    most_in_a_run: int | None = None
    most_pauses: int | None = None
    most_records: int | None = None
    summary: str

    @property
    def suffix(self) -> str:
        """The file name's ending, with its dot."""
        return f".{self.name}"

    @property
    def longest_step_mm(self) -> float:
        """Longest stitch along either axis, mm."""
        return round(self.longest_step_units * GRID_MM, 9)


_ALL: Final = (
    Format(
        name="dst",
        longest_step_units=121,  # 1 + 3 + 9 + 27 + 81: all five digits of the record set
        pause="colour",
        cut_records=3,  # a cut is three small jumps; so many machines cut after three
        name_length=16,  # a longer one shifts every header field after it
        farthest_units=99_999,  # five digits in the header
        most_pauses=998,  # a count of three digits, less one for the first colour
        most_records=9_999_999,  # seven digits in the header
        summary="widespread; no colours; a pause is a colour change",
    ),
    Format(
        name="exp",
        longest_step_units=127,  # one signed byte; -128 marks a command
        pause="colour",
        summary="stitches only, no header; a pause is a colour change",
    ),
    Format(
        name="pes",  # version 1: the one that more machines list (library's tracker, no. 2)
        longest_step_units=2047,  # twelve bits with a sign
        pause="stop",
        cut_records=1,  # every jump is a trim and a move
        keeps_jumps=False,
        stores_colour=True,  # the nearest of 64
        name_length=8,
        farthest_units=16_383,  # extents are 16 bits with a sign
        most_in_a_run=65_535,  # a 16-bit count in the object block; reading back cannot see it
        most_pauses=254,  # one byte counts the colours
        summary="version 1; nearest of 64 colours; real stops; every jump is cut",
    ),
    Format(
        name="jef",
        longest_step_units=127,
        pause="colour",  # every second one; see docs/formats.md
        cut_records=3,
        stores_colour=True,  # the nearest of 78
        summary="nearest of 78 colours; every second pause is a colour change",
    ),
    Format(
        name="vp3",
        longest_step_units=255,  # more is held, but some software then takes it for a cut
        pause="colour",
        keeps_jumps=False,
        stores_colour=True,
        farthest_units=16_383,  # a step over the whole field has to fit 16 bits
        most_pauses=254,  # one byte counts the colour blocks
        summary="exact colours; an uncut jump is a long stitch; a pause is a colour change",
    ),
    Format(
        name="u01",
        longest_step_units=127,  # up to 255 is held; the library keeps to 127
        pause="stop",
        farthest_units=32_767,  # extents are 16 bits with a sign
        summary="no colours; real stops and cuts",
    ),
    Format(
        name="xxx",
        longest_step_units=123,  # 124 and more come back as jumps
        pause="colour",
        stores_colour=True,
        farthest_units=16_383,  # width and height are 16 bits with a sign
        summary="exact colours; a pause is a change to the same colour",
    ),
)

FORMATS: Final[dict[str, Format]] = {format_.name: format_ for format_ in _ALL}
"""By name, the most widespread first."""


def stitch_formats(names: Iterable[str]) -> list[Format]:
    """Return the formats of stitches among some names, each once; line formats are left out.

    Example:
        >>> [format_.name for format_ in stitch_formats(["exp", "svg", "dst", "exp"])]
        ['exp', 'dst']
    """
    return [FORMATS[name] for name in dict.fromkeys(names) if name in FORMATS]
