"""Is what was read back what was planned?"""

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.formats import Format
from stitchpath.errors import FormatError
from stitchpath.machine.decode import FileStitches
from stitchpath.machine.records import Records, Units, count_gaps
from stitchpath.model.stitches import Op


def check_read_back(
    planned: Units, op: NDArray[np.uint8], records: Records, read: FileStitches, format_: Format
) -> None:
    """Say nothing where the file holds what was planned.

    Needle points are equal in number and to the last tenth. Each planned cut and pause stands
    before the same needle point; a cut that was not planned is there only where the format
    takes a jump of so many records for one.

    Args:
        planned: Places of all planned rows, shape (n, 2), tenths of a mm.
        op: What was planned there, shape (n,).
        records: What was written, for the number of hops.
        read: What was read back.
        format_: What the format keeps.

    Raises:
        FormatError: They differ.
    """
    _check_points(planned[op == Op.STITCH], read.needle_points_units, format_)
    want, got, hops = count_gaps(op), count_gaps(read.op), count_gaps(records.op).jumps
    _check_same("pause", want.pauses, got.pauses, format_)
    may_cut = np.zeros(len(hops), dtype=np.bool_)
    if format_.cut_records is not None:
        may_cut = hops >= format_.cut_records
    cut = want.cuts > 0
    _check_same("cut", cut, (got.cuts > 0) & (cut | ~may_cut), format_)


def _check_points(want: Units, got: Units, format_: Format) -> None:
    if len(want) != len(got):
        raise FormatError(
            f"the {format_.name} file does not read back as planned: "
            f"{len(got)} needle points in place of {len(want)}\n{_NEXT}"
        )
    differs = np.flatnonzero((want != got).any(axis=1))
    if len(differs):
        row = int(differs[0])
        raise FormatError(
            f"the {format_.name} file does not read back as planned: needle point {row + 1} is "
            f"at {got[row].tolist()} in place of {want[row].tolist()} tenths of a mm\n{_NEXT}"
        )


def _check_same(
    what: str, want: NDArray[np.generic], got: NDArray[np.generic], format_: Format
) -> None:
    # Before the first needle point nothing can be cut, whatever the records there look like.
    differs = np.flatnonzero(want[1:] != got[1:])
    if len(differs):
        raise FormatError(
            f"the {format_.name} file does not read back as planned: a {what} differs before "
            f"needle point {int(differs[0]) + 2}\n{_NEXT}"
        )


_NEXT = "nothing was written; use another format"
