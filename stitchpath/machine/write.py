"""The only way to make a stitch file: encode, read back, compare."""

from stitchpath.catalog.formats import Format
from stitchpath.machine.codecs import CODECS
from stitchpath.machine.compare import check_read_back
from stitchpath.machine.decode import decode
from stitchpath.machine.plain_name import plain_name
from stitchpath.machine.records import make_records, round_to_units
from stitchpath.machine.rows import Label
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Stitches
from stitchpath.model.thread import ThreadPair


def stitch_file(
    stitches: Stitches,
    hooping: Hooping,
    *,
    format: Format,  # noqa: A002 - the trade's word, and no call of the builtin here
    name: str,
    thread: ThreadPair,
) -> bytes:
    """Return a stitch file that reads back as planned, needle point by needle point.

    Positions are rounded to tenths of a mm in the field's own frame, each by itself, so that no
    error adds up. The same stitches give the same bytes.

    Args:
        stitches: What is sewn, in the piece's frame, mm.
        hooping: Where the hoop lies.
        format: One of `FORMATS`.
        name: The design's name, for formats that show one.
        thread: The stage's threads, for formats that store a colour.

    Raises:
        FormatError: The format cannot hold the stitches, or they did not come back as planned.

    Not promised: that a machine agrees with the reader. See docs/formats.md.
    """
    units = round_to_units(stitches, hooping)
    records = make_records(units, stitches.op, format)
    label = Label(name=plain_name(name, format.name_length), colour=thread.top)
    data = CODECS[format.name].encode(records, label)
    check_read_back(units, stitches.op, records, decode(data, format.suffix), format)
    return data
