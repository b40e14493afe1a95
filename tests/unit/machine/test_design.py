"""A stitch file as a design: its stitches, stops, colours, and what is odd about it."""

import io

import numpy as np
import pytest
from pyembroidery import EmbPattern, EmbThread

from stitchpath.machine import StitchFile, design_of, read_stitch_file
from stitchpath.machine.library_read import decode_by_library
from stitchpath.machine.soundness import Fault, Soundness
from stitchpath.model.stitches import Op
from tests.support.designs import file_stitches


def written(ending: str, *colours: str) -> bytes:
    """Return a file of the library's: a triangle in each colour, and a stop in the last."""
    pattern = EmbPattern()
    for number, colour in enumerate(colours):
        pattern.add_thread(EmbThread(colour))
        if number:
            pattern.color_change()
        for x, y in ((0, 0), (40, 0), (20, 30), (0, 0)):
            pattern.add_stitch_absolute(0, x + 100 * number, y)
    pattern.stop()
    pattern.add_stitch_absolute(0, 900, 0)
    pattern.end()
    stream = io.BytesIO()
    getattr(EmbPattern, f"write_{ending}")(pattern, stream)
    return stream.getvalue()


@pytest.mark.parametrize("ending", ["pes", "vp3", "xxx"])
def test_colours_are_those_that_the_library_wrote(ending: str) -> None:
    """Oracle: pyembroidery's writer. These formats store colours exactly, or nearly."""
    data = written(ending, "#ff0000", "#0000ff")
    file = read_stitch_file(
        data, ending, by_library=lambda data, name: decode_by_library(data, name=name)
    )
    colours = design_of(file, "two.pes").colours
    assert len(colours) == 2
    red, blue = (int(colour[1:], 16) for colour in colours)
    assert red >> 16 > 0x80 > red & 0xFF
    assert blue & 0xFF > 0x80 > blue >> 16


def test_stops_are_told_from_changes_of_colour_by_their_rows() -> None:
    read = file_stitches(
        (0, 0), (30, 0), "jump", (60, 0), "stop", (90, 0), "colour", (90, 40), (90, 80)
    )
    file = StitchFile(format="u01", read=read, sound=Soundness(whole=True, faults=()))
    design = design_of(file, "a.u01")
    assert design.stitches.op[design.stops].tolist() == [Op.PAUSE]
    pauses = np.flatnonzero(design.stitches.op == Op.PAUSE)
    assert design.stops.tolist() == pauses[:1].tolist()
    assert design.stitches.xy[design.stops].tolist() == [[6.0, 0.0]]
    assert design.size == (9.0, 8.0)
    assert design.most_runs == 3


def test_what_is_odd_about_a_file_is_told() -> None:
    fault = Fault(text="its header states another size")
    sound = Soundness(whole=None, faults=(fault,))
    file = StitchFile(format="exp", read=file_stitches((0, 0), (9, 9)), sound=sound)
    design = design_of(file, "odd.exp")
    assert (design.source, design.said) == ("odd.exp", (fault.text,))
