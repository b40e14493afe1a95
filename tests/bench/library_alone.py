"""A process that only has the format library write stitches: what `make` is measured against.

Called with a folder of stitches, as 32-bit integers x, y (tenths of a mm) and command, one file
a hooping, and a folder to write dst files into.
"""

import sys
from array import array
from pathlib import Path

from pyembroidery import END, EmbPattern


def write_all(source: Path, target: Path) -> None:
    """Write every hooping as the library does it when nothing else is asked of it."""
    for path in sorted(source.iterdir()):
        rows = array("i", path.read_bytes()).tolist()
        pattern = EmbPattern()
        for row in range(0, len(rows), 3):
            pattern.add_stitch_absolute(rows[row + 2], rows[row], rows[row + 1])
        pattern.add_stitch_absolute(END, rows[-3], rows[-2])
        with (target / f"{path.name}.dst").open("wb") as stream:
            EmbPattern.write_dst(pattern, stream)


if __name__ == "__main__":
    write_all(Path(sys.argv[1]), Path(sys.argv[2]))
