"""Needle points and commands as text: CSV (RFC 4180) and JSON (RFC 8259).

Places are those of the stitch files: mm from the field's centre in whole tenths, x to the right
and y down. Nothing in them is a maker's own text, so that no cell can be a formula.
"""

import csv
import io
import json
from collections.abc import Iterable
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.errors import FormatError
from stitchpath.geometry.points import in_steps
from stitchpath.geometry.tolerance import STEPS_PER_MM
from stitchpath.machine.rows import FileStitches, Units
from stitchpath.model.stitches import Op

CSV_HEAD: Final = ("command", "x_mm", "y_mm")
CSV_MARK: Final = ",".join(CSV_HEAD).encode()
SCHEMA: Final = "stitchpath-points-1"
JSON_MARK: Final = f'{{"schema": "{SCHEMA}"'.encode()
_OPS: Final = {op.name.lower(): op for op in Op}
_FARTHEST_MM: Final = 1e9


def encode_csv(xy_units: Units, op: NDArray[np.uint8]) -> bytes:
    """Return a table with a head: command, x, y."""
    stream = io.StringIO()
    table = csv.writer(stream)  # lines end in CR LF, as RFC 4180 has it
    table.writerow(CSV_HEAD)
    table.writerows(_rows(xy_units, op))
    return stream.getvalue().encode("ascii")


def encode_json(xy_units: Units, op: NDArray[np.uint8]) -> bytes:
    """Return an object with `schema`, `unit` and `points`: a list of [command, x, y]."""
    rows = ",\n".join(json.dumps(row) for row in _rows(xy_units, op))
    head = JSON_MARK.decode()
    return f'{head}, "unit": "mm", "points": [\n{rows}\n]}}\n'.encode("ascii")


def decode_csv(data: bytes) -> FileStitches:
    """Return what a table that begins with `CSV_MARK` says.

    Raises:
        FormatError: It is not what it begins as.
    """
    try:
        table = list(csv.reader(io.StringIO(data.decode("utf-8"), newline="")))
        return _read(table[1:])
    except (csv.Error, ValueError, LookupError, OverflowError) as fault:
        raise FormatError(f"the table is not one of needle points: {fault}") from fault


def decode_json(data: bytes) -> FileStitches:
    """Return what an object that begins with `JSON_MARK` says.

    Raises:
        FormatError: It is not what it begins as.
    """
    try:
        return _read(json.loads(data)["points"])
    except (ValueError, LookupError, TypeError, OverflowError, RecursionError) as fault:
        raise FormatError(
            f"the data are not needle points: {type(fault).__name__} while reading"
        ) from fault


def _rows(xy_units: Units, op: NDArray[np.uint8]) -> Iterable[tuple[str, float, float]]:
    names = [kind.name.lower() for kind in Op]
    for (x, y), kind in zip((xy_units / STEPS_PER_MM).tolist(), op.tolist(), strict=True):
        yield names[kind], x + 0.0, y + 0.0


def _read(rows: list[Any]) -> FileStitches:
    op = np.array([_OPS[row[0]] for row in rows], dtype=np.uint8)
    places = np.array([(float(row[1]), float(row[2])) for row in rows]).reshape(-1, 2)
    if not (np.abs(places) < _FARTHEST_MM).all():
        raise ValueError("a place that no machine reaches")
    stops = np.flatnonzero(op == Op.PAUSE)  # a pause here is a stop, never a change of colour
    return FileStitches(xy_units=in_steps(places), op=op, stops=stops)
