"""Lines as G-code: words that ISO 6983-1 and RS-274 share.

G0 moves, G1 sews along a line at the feed F, G17 is the x-y plane, G21 millimetres, G90
absolute places, G94 a feed in mm a minute, M2 the end. A comment stands in parentheses, which
do not nest; a line has at most 256 characters. Sources: docs/sources.md, line files. ISO 6983
itself was not read.
"""

import re
from typing import Final

import numpy as np

from stitchpath.machine.line_svg import number
from stitchpath.machine.line_work import LineWork, Stretches

MARK: Final = b"(lines of stitchpath)"
"""How a file begins."""
_SET_UP: Final = "G17 G21 G90 G94"
_END: Final = "M2"
_MOVE: Final = re.compile(r"G([01]) X([-\d.]+) Y([-\d.]+)(?: F[\d.]+)?")


def encode_gcode(work: LineWork) -> bytes:
    """Return a G-code file; its origin is the field's centre, x to the right and y up."""
    words = work.gcode
    lines = [
        MARK.decode(),
        f"({work.name}: {len(work.runs)} runs)",
        "(from the field's centre, x to the right, y up)",
        _SET_UP,
        words.needle_up,
    ]
    for nth, run in enumerate(work.runs, 1):
        lines.append(f"(run {nth})")
        for stretch in run:
            first, *rest = (f"X{number(x)} Y{number(-y)}" for x, y in stretch.tolist())
            lines += [f"G0 {first}", words.needle_down]
            lines.append(f"G1 {rest[0]} F{number(words.feed)}")
            lines += [f"G1 {place}" for place in rest[1:]]
            lines.append(words.needle_up)
    return "\n".join([*lines, _END, ""]).encode("ascii")


def decode_gcode(data: bytes, work: LineWork) -> list[Stretches]:
    """Return the runs of a file just written: what G1 draws while the needle is down.

    Raises:
        ValueError: A line is none of those that are written, or the needle is not as it should
            be there (a bug).
    """
    runs: list[list[list[tuple[float, float]]]] = []
    at, down = (0.0, 0.0), False
    for line in data.decode("ascii").splitlines():
        if line in {work.gcode.needle_down, work.gcode.needle_up}:
            down = line == work.gcode.needle_down
            if down:
                runs[-1].append([at])
        elif move := _MOVE.fullmatch(line):
            at = (float(move[2]), -float(move[3]) + 0.0)
            _draw(runs, at, sews=move[1] == "1", down=down)
        elif line.startswith("(run "):
            runs.append([])
        elif not line.startswith("(") and line not in {_SET_UP, _END}:
            raise ValueError(f"no line of ours: {line}")
    return [tuple(np.array(stretch) for stretch in run) for run in runs]


def _draw(
    runs: list[list[list[tuple[float, float]]]],
    at: tuple[float, float],
    *,
    sews: bool,
    down: bool,
) -> None:
    if sews is not down:
        raise ValueError(f"the needle is {'down' if down else 'up'} on the way to {at}")
    if sews:
        runs[-1][-1].append(at)
