"""Is what was read back what was planned?"""

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.formats import Format
from stitchpath.errors import FormatError
from stitchpath.geometry.points import parts_of
from stitchpath.machine.rows import FileStitches, Records, Units, gaps_of
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
    rows = np.flatnonzero(op == Op.STITCH)
    _check_points(planned, rows, read, format_)
    last = len(rows) - 1
    want, got = (_between(gaps_of(rows, Op.PAUSE), last) for rows in (op, read.op))
    _check_same("pause", want, got, format_)
    want, got = (np.unique(_between(gaps_of(rows, Op.CUT), last)) for rows in (op, read.op))
    may_cut = np.setdiff1d(_long_ways(records.op, format_), want)
    _check_same("cut", want, np.setdiff1d(got, may_cut), format_)


def _check_points(
    planned: Units, rows: NDArray[np.intp], read: FileStitches, format_: Format
) -> None:
    read_rows = np.flatnonzero(read.op == Op.STITCH)
    if len(rows) != len(read_rows):
        raise FormatError(
            f"the {format_.name} file does not read back as planned: "
            f"{len(read_rows)} needle points in place of {len(rows)}\n{_NEXT}"
        )
    for part in parts_of(len(rows)):
        want = planned.take(rows[part], axis=0)
        got = read.xy_units.take(read_rows[part], axis=0)
        if not np.array_equal(want, got):
            row = int(np.flatnonzero((want != got).any(axis=1))[0])
            raise FormatError(
                f"the {format_.name} file does not read back as planned: needle point "
                f"{part.start + row + 1} is at {got[row].tolist()} in place of "
                f"{want[row].tolist()} tenths of a mm\n{_NEXT}"
            )


def _between(gaps: NDArray[np.intp], last: int) -> NDArray[np.intp]:
    # Before the first needle point nothing can be cut, whatever the records there look like.
    return gaps[(gaps > 0) & (gaps <= last)]


def _long_ways(op: NDArray[np.uint8], format_: Format) -> NDArray[np.intp]:
    """Return the gaps of so many hops that the format takes them for a cut."""
    gaps, hops = np.unique(gaps_of(op, Op.JUMP), return_counts=True)
    if format_.cut_records is None:
        return gaps[:0]
    return gaps[hops >= format_.cut_records]


def _check_same(
    what: str, want: NDArray[np.intp], got: NDArray[np.intp], format_: Format
) -> None:
    if np.array_equal(want, got):
        return
    most = int(np.concatenate([want, got]).max()) + 1
    differs = np.bincount(want, minlength=most) != np.bincount(got, minlength=most)
    raise FormatError(
        f"the {format_.name} file does not read back as planned: a {what} differs before "
        f"needle point {int(np.flatnonzero(differs)[0]) + 1}\n{_NEXT}"
    )


_NEXT = "nothing was written; use another format"
