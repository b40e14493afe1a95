"""Stitches <-> bytes of stitch files; the only importer of pyembroidery."""

from stitchpath.machine.decode import FileStitches, decode
from stitchpath.machine.write import stitch_file

__all__ = ["FileStitches", "decode", "stitch_file"]
