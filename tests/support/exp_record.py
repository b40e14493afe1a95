"""An independent decoder of exp files, written from a published description.

Source: hwiegman.home.xs4all.nl/fileformats, the text on the expanded (exp) format: no header,
two bytes a stitch (x, y as two's complement), 80 01 before a change of colour, 80 02 or 80 04
before a jump. The text's own example is tested. 80 80 for a cut is not in it: from memory.
"""

from typing import NamedTuple

_KINDS = {0x01: "colour", 0x02: "jump", 0x04: "jump", 0x80: "cut"}


class ExpRecord(NamedTuple):
    """One record: kind is stitch, jump, colour or cut; dx and dy in tenths of a mm, y up."""

    kind: str
    dx: int
    dy: int


def decode_exp(data: bytes) -> list[ExpRecord]:
    """Read the whole file; a record after a mark carries two bytes of its own."""
    records, at = [], 0
    while at < len(data):
        kind = "stitch"
        if data[at] == 0x80:
            kind = _KINDS[data[at + 1]]
            at += 2
        step = [byte - 256 if byte > 127 else byte for byte in data[at : at + 2]]
        records.append(ExpRecord(kind, 0, 0) if kind == "cut" else ExpRecord(kind, *step))
        at += 2
    return records
