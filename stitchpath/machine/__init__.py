"""Stitches <-> bytes of stitch files; the only importer of pyembroidery."""

from stitchpath.machine.decode import decode
from stitchpath.machine.rows import FileStitches
from stitchpath.machine.write import stitch_file

__all__ = ["FileStitches", "decode", "stitch_file"]
