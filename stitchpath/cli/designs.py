"""Reading a project's designs: stitch files in its folder, bounded as all strangers' files."""

from collections.abc import Callable
from pathlib import Path, PureWindowsPath
from typing import Final

from stitchpath.cli.beside import bytes_beside
from stitchpath.cli.reading import StitchReader
from stitchpath.errors import FormatError
from stitchpath.machine import StitchFile, design_of
from stitchpath.machine.decode import MOST_BYTES
from stitchpath.model.design import DesignFile
from stitchpath.project import Load

MOST_STITCHES: Final = 200_000
"""Of one design: more than three hours of sewing at a place (at 1000 stitches a minute)."""


def design_loader(folder: Path, reader: StitchReader) -> Load[DesignFile]:
    """Return what reads the designs of a project: stitch files in its folder, or below it.

    It raises a ValueError that says why a name cannot be read: as for drawings, or no stitch
    file, cut short, nothing to sew, too many stitches.

    Args:
        folder: The project's.
        reader: Reads the files; to be open as long as the loader is used.
    """
    home = folder.resolve()

    def load(name: str) -> DesignFile:
        data = bytes_beside(home, name, what="a design", most=MOST_BYTES + 1)
        return read_design(data, name, reader.read_bytes)

    return load


def read_design(data: bytes, name: str, read: Callable[[bytes, str], StitchFile]) -> DesignFile:
    """Return the design that a stitch file's bytes are.

    Args:
        data: The file's contents.
        name: What the project calls it.
        read: Reads bytes by a suffix; its FormatError says why it cannot.

    Raises:
        ValueError: It is no stitch file, cut short, sews nothing, or has too many stitches.
    """
    try:
        file = read(data, PureWindowsPath(name).suffix)
    except FormatError as fault:
        raise ValueError(str(fault).replace("\n", "; ")) from fault
    _check(file)
    return design_of(file, name)


def _check(file: StitchFile) -> None:
    """Refuse half a file, one that sews nothing, and one that is too much.

    Raises:
        ValueError: It is.
    """
    if file.sound.whole is False:
        why = "; ".join(fault.text for fault in file.sound.faults if fault.cut_short)
        raise ValueError(f"the file is cut short: {why}")
    stitches = len(file.read.needle_points_units)
    if stitches == 1:
        raise ValueError("it has one needle point, and it takes two to sew")
    if stitches > MOST_STITCHES:
        raise ValueError(
            f"it has {stitches:,} stitches; a design has at most {MOST_STITCHES:,}"
        )
