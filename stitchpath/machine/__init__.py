"""Stitches <-> bytes of stitch files; the only importer of pyembroidery."""

from stitchpath.machine.decode import decode
from stitchpath.machine.design import design_of
from stitchpath.machine.line_write import line_file
from stitchpath.machine.measure import measure, sewn_part
from stitchpath.machine.read_file import StitchFile, read_stitch_file
from stitchpath.machine.rows import FileStitches
from stitchpath.machine.write import stitch_file

__all__ = [
    "FileStitches",
    "StitchFile",
    "decode",
    "design_of",
    "line_file",
    "measure",
    "read_stitch_file",
    "sewn_part",
    "stitch_file",
]
