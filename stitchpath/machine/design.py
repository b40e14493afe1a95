"""A stitch file as a design that a project may place."""

import numpy as np

from stitchpath.machine.measure import sewn_part, sewn_rows
from stitchpath.machine.read_file import StitchFile
from stitchpath.model.design import DesignFile


def design_of(file: StitchFile, source: str) -> DesignFile:
    """Return what a stitch file sews, as a project places it.

    Args:
        file: What it says.
        source: What the project calls it.
    """
    return DesignFile(
        source=source,
        stitches=sewn_part(file.read),
        stops=np.flatnonzero(np.isin(sewn_rows(file.read), file.read.stops)),
        colours=file.read.colours[: file.read.colour_blocks],
        said=tuple(fault.text for fault in file.sound.faults),
    )
