"""Reads every format that the library reads.

A reader is not trusted: it has no error of its own, so that anything it raises counts as a file
that cannot be read; most truncated files pass, see `soundness`. It works stitch by stitch and
may need much memory and time for a hostile file: whoever gives it a stranger's bytes does so in
a process that can be ended.
"""

import io
from collections.abc import Callable, Iterator, Sequence
from itertools import chain
from typing import Any, Final

import numpy as np
from pyembroidery import (
    COLOR_CHANGE,
    COMMAND_MASK,
    JUMP,
    NEEDLE_SET,
    STITCH,
    STOP,
    TRIM,
    EmbPattern,
)

from stitchpath.errors import FormatError
from stitchpath.machine.rows import FileStitches
from stitchpath.model.stitches import Op

_OTHER: Final = 255
_OPS: Final = np.full(COMMAND_MASK + 1, _OTHER, dtype=np.uint8)
_OPS[[STITCH, JUMP, TRIM]] = [Op.STITCH, Op.JUMP, Op.CUT]
_OPS[[STOP, COLOR_CHANGE, NEEDLE_SET]] = Op.PAUSE
_KINDS: Final = frozenset({"embroidery", "stitch", "debug"})
"""The library's categories that hold stitches; others hold threads only."""
_CUTS_BY_JUMPS: Final = {"trims": True, "trim_distance": None}
_SETTINGS: Final[dict[str, dict[str, Any]]] = {"jef": _CUTS_BY_JUMPS}
_LIGHT: Final = frozenset({"pes", "pec", "jef", "vp3", "u01", "xxx"})
"""Formats whose readers use nothing that `_LightPattern` does otherwise."""
_MOST_THREADS: Final = 1000
_WHITE: Final = 0xFFFFFF
_FARTHEST_UNITS: Final = 2**40
"""Places that no sum of steps in a file of bounded size reaches, yet far from overflowing."""


def _readers() -> Iterator[tuple[str, str, Any]]:
    """Yield each ending, the format's name and its reader."""
    for known in EmbPattern.supported_formats():
        if known.get("reader") is None or known.get("category") not in _KINDS:
            continue
        name, endings = known["extension"], known.get("extensions", ())
        for ending in (name, *((endings,) if isinstance(endings, str) else endings)):
            yield ending.removeprefix("."), name, known["reader"]


NAMES: Final[dict[str, str]] = {ending: name for ending, name, _ in _readers()}
"""The format's name by a file name's ending, such as `u01` by `u02`."""
_READERS: Final[dict[str, Any]] = {name: reader for _, name, reader in _readers()}


class _LightPattern(EmbPattern):  # type: ignore[misc]  # the library ships without annotations
    """Takes stitches in one call in place of three, and in half the time.

    A row is a tuple, which the collector of garbage need not follow, as it would a list.
    """

    def stitch(self, dx: float = 0, dy: float = 0, position: None = None) -> None:
        """Append a stitch; no reader used here gives a position."""
        if position is not None:
            raise ValueError("stitches are appended only")
        self._previousX += dx
        self._previousY += dy
        self.stitches.append((self._previousX, self._previousY, STITCH))


def decode_by_library(data: bytes, *, name: str) -> FileStitches:
    """Return what a file of the named format says.

    Args:
        data: The whole file.
        name: One of the names in `NAMES`.

    Raises:
        FormatError: The library cannot read it.
        MemoryError: It would take more memory than there is.
    """
    reader = _READERS[name]
    stream: io.BytesIO | io.TextIOWrapper = io.BytesIO(data)
    if getattr(reader, "READ_FILE_IN_TEXT_MODE", False):
        stream = io.TextIOWrapper(io.BytesIO(data), encoding="utf-8", newline="")
    pattern = _LightPattern() if name in _LIGHT else EmbPattern()
    read: Callable[..., None] = reader.read
    try:
        read(stream, pattern, _SETTINGS.get(name, {}))
        return _columns(pattern.stitches, _colours(pattern))
    except MemoryError:
        raise
    except Exception as fault:
        raise FormatError(
            f"the bytes cannot be read as a {name} file: {type(fault).__name__} in its reader"
        ) from fault


def _colours(pattern: EmbPattern) -> tuple[str, ...]:
    """Return the colours of a file's threads, as far as they are colours at all."""
    threads = pattern.threadlist[:_MOST_THREADS]
    return tuple(f"#{int(thread.color) & _WHITE:06x}" for thread in threads)


def _columns(rows: Sequence[Sequence[float]], colours: tuple[str, ...]) -> FileStitches:
    flat = np.fromiter(chain.from_iterable(rows), dtype=np.float64, count=3 * len(rows))
    table = flat.reshape(-1, 3)
    if not (np.abs(table) < _FARTHEST_UNITS).all():  # nor is it, with what is no number
        raise ValueError("a place that no machine reaches")
    command = table[:, 2].astype(np.int64) & COMMAND_MASK
    op = _OPS[command]
    known = op != _OTHER
    xy = np.rint(table[known, :2]).astype(np.int64)
    stops = np.flatnonzero(command[known] == STOP)
    return FileStitches(xy_units=xy, op=op[known], stops=stops, colours=colours)
