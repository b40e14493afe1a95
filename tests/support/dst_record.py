"""An independent decoder of the dst record, written from its published table.

Source: "DST Design format", http://www.achatina.de/sewing/main/DST.HTM: three bytes a record;
the table below is the page's, bit 7 first; y points up. The page's own examples are tested.
"""

from typing import NamedTuple

HEADER_BYTES = 512
RECORD_BYTES = 3
_TABLE = (
    "y+1 y-1 y+9 y-9 x-9 x+9 x-1 x+1",
    "y+3 y-3 y+27 y-27 x-27 x+27 x-3 x+3",
    "jump colour y+81 y-81 x-81 x+81 set set",
)
_END = b"\x00\x00\xf3"  # edutechwiki.unige.ch/en/Embroidery_format_DST


class DstRecord(NamedTuple):
    """One record: kind is stitch, jump, colour or end; dx and dy in tenths of a mm, y up."""

    kind: str
    dx: int
    dy: int


def decode_record(record: bytes) -> DstRecord:
    """Read one record of three bytes by the table."""
    if record == _END:
        return DstRecord("end", 0, 0)
    words = [
        word
        for byte, row in zip(record, _TABLE, strict=True)
        for bit, word in zip(range(7, -1, -1), row.split(), strict=True)
        if byte >> bit & 1
    ]
    step = {
        axis: sum(int(word[1:]) for word in words if word[0] == axis and word[1] in "+-")
        for axis in "xy"
    }
    kind = "colour" if "colour" in words else "jump" if "jump" in words else "stitch"
    return DstRecord(kind, step["x"], step["y"])


def decode_body(data: bytes) -> list[DstRecord]:
    """Read all records after the header."""
    body = data[HEADER_BYTES:]
    assert len(body) % RECORD_BYTES == 0
    return [
        decode_record(body[at : at + RECORD_BYTES]) for at in range(0, len(body), RECORD_BYTES)
    ]


def header_fields(data: bytes) -> dict[str, str]:
    """Read the header's fields from their fixed places.

    Source: offsets and widths from the header's table at
    community.kde.org/Projects/Liberty/File_Formats (label 20, ST 11, CO 7, four extents of 9).
    """
    widths = {"LA": 20, "ST": 11, "CO": 7, "+X": 9, "-X": 9, "+Y": 9, "-Y": 9}
    fields, at = {}, 0
    for label, width in widths.items():
        text = data[at : at + width].decode("ascii")
        assert text.startswith(f"{label}:"), (label, text)
        assert text.endswith("\r"), (label, text)
        fields[label] = text[3:-1].strip()
        at += width
    return fields
