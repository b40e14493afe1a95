"""The quilts that are timed: lap, throw, king, and one as vast as anyone likes.

Vast is a close crosshatch, in one field that holds all of it: a side of 9 m comes to 5 million
stitches, which is as much as one dst file of 16 MB holds.
"""

from pathlib import Path
from typing import Final

_HERE: Final = Path(__file__).parent
LAP: Final = _HERE / "lap.toml"
THROW: Final = _HERE / "throw.toml"
KING: Final = _HERE / "king.toml"
VAST_SIDES_MM: Final = (900, 2850, 9000)
"""For 50,000, 500,000 and 5,000,000 stitches."""
_VAST: Final = """\
name = "Vast crosshatch"
units = "mm"
[quilt]
width = {side}
length = {side}
[[quilt.quilting]]
layout = "crosshatch"
spacing = 10.8
stitch_length = 3
[batting]
quilting_distance = 100
[machine]
field = [{field}, {field}]
formats = ["dst"]
"""


def write_vast(folder: Path, side_mm: int) -> Path:
    """Write the project of a vast quilt into a folder; return its path."""
    path = folder / f"vast-{side_mm}.toml"
    path.write_text(_VAST.format(side=side_mm, field=side_mm + 100), encoding="utf-8")
    return path
