"""Which format a file is of: by its content where that tells, else by its name.

Marks and offsets were taken from files that the library (pyembroidery 1.5.1) writes; that of
hus is from memory.
"""

from typing import Final

from stitchpath.catalog.formats import FORMATS
from stitchpath.machine.points_text import CSV_MARK, JSON_MARK

_MARKS: Final = (
    (0, b"#PES", "pes"),
    (0, b"#PEC", "pec"),
    (0, b"%vsm%", "vp3"),
    (0, b"LA:", "dst"),
    (0, b"\x5b\xaf\xc8\x00", "hus"),
    (0x80, b"LA:", "tbf"),
    (0, CSV_MARK, "csv"),
    (0, JSON_MARK, "json"),
)
"""Where, which bytes, which format."""
MARKED: Final = frozenset({"pes", "pec", "vp3", "dst"})
"""Formats that nothing is a file of which does not begin as one; of the others old writers may
leave the mark out."""
_LIKE: Final = {"dst": frozenset({"dsb", "dsz"}), "pec": frozenset({"pes"})}
"""Formats that begin as another one does: then the name tells them apart."""
_PROJECT: Final = "toml"
"""Of a project: that it is no stitch file is known without the library, slow to import."""
_JEF_HEADER: Final = 0x74
_JEF_SAYS: Final = 0x14
_XXX_BODY: Final = 0x100
XXX_END: Final = 0xFC
"""Where the header of an xxx file says where its stitches end."""


def format_by_name(suffix: str) -> str | None:
    """Return the format that a file name's ending stands for, or None.

    Example:
        >>> format_by_name(".DST"), format_by_name("u02"), format_by_name(".toml")
        ('dst', 'u01', None)
    """
    name = suffix.lower().removeprefix(".")
    if name in FORMATS or name == _PROJECT:
        return name if name in FORMATS else None
    from stitchpath.machine.library_read import NAMES  # noqa: PLC0415 - slow to import

    return NAMES.get(name)


def format_by_content(data: bytes) -> str | None:
    """Return the format that the bytes have the mark or the structure of, or None.

    exp, u01 and most others have nothing to know them by.
    """
    for at, mark, name in _MARKS:
        if data.startswith(mark, at):
            return name
    if _is_jef(data):
        return "jef"
    return "xxx" if _is_xxx(data) else None


def is_named_otherwise(by_name: str | None, by_content: str | None) -> bool:
    """Tell whether a file's name says another format than its content."""
    if by_content is None or by_name == by_content:
        return False
    return by_name not in _LIKE.get(by_content, ())


def number_at(data: bytes, at: int, size: int, *, signed: bool = False) -> int:
    """Return a whole number, lowest byte first; 0 where the data ends before it."""
    return int.from_bytes(data[at : at + size], "little", signed=signed)


def _is_jef(data: bytes) -> bool:
    """Tell a jef file by how far its header says that it reaches."""
    colours = number_at(data, 24, 4)
    says = number_at(data, 4, 4) == _JEF_SAYS
    return says and colours > 0 and number_at(data, 0, 4) == _JEF_HEADER + 8 * colours


def _is_xxx(data: bytes) -> bool:
    """Tell an xxx file by the end mark where its header says that the stitches end."""
    end = number_at(data, XXX_END, 4)
    return end >= _XXX_BODY and data[end : end + 2] == b"\x7f\x7f"
