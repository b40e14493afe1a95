"""Is what was read back what was planned?"""

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.formats import Format
from stitchpath.errors import FormatError
from stitchpath.machine.rows import FileStitches, Records, Units, gaps_of, needle_points
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
    points = needle_points(planned, op)
    _check_points(points, read.needle_points_units, format_)
    last = len(points) - 1
    want, got = (_between(gaps_of(rows, Op.PAUSE), last) for rows in (op, read.op))
    _check_same("pause", want, got, format_)
    want, got = (np.unique(_between(gaps_of(rows, Op.CUT), last)) for rows in (op, read.op))
    may_cut = np.setdiff1d(_long_ways(records.op, format_), want)
    _check_same("cut", want, np.setdiff1d(got, may_cut), format_)


def _check_points(want: Units, got: Units, format_: Format) -> None:
    if len(want) != len(got):
        raise FormatError(
            f"the {format_.name} file does not read back as planned: "
            f"{len(got)} needle points in place of {len(want)}\n{_NEXT}"
        )
    if not np.array_equal(want, got):
        row = int(np.flatnonzero((want != got).any(axis=1))[0])
        raise FormatError(
            f"the {format_.name} file does not read back as planned: needle point {row + 1} is "
            f"at {got[row].tolist()} in place of {want[row].tolist()} tenths of a mm\n{_NEXT}"
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
