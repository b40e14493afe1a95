"""Lines as DXF through ezdxf: R2010, millimetres, y up.

Layers: `LINES` has the runs, `HOPS` the moves with the thread uncut within a run, `FIELD` what
the needle can reach, `MARKS` the placement marks.
"""

import io
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from stitchpath.errors import FormatError
from stitchpath.geometry.points import Points
from stitchpath.machine.line_work import LineWork, Stretches

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

_LAYERS: Final = {"LINES": 7, "HOPS": 8, "FIELD": 5, "MARKS": 1}
"""Each with its colour index: black or white, grey, blue, red."""
_CROSS_MM: Final = 5.0
_AT_ONCE: Final = 1000
"""Vertices added in one call: each call copies what is there, so that one by one is slow."""


def encode_dxf(work: LineWork) -> bytes:
    """Return a DXF file; its origin is the field's centre, x to the right and y up."""
    doc = _new_document()
    space = doc.modelspace()
    half = np.array(work.field) / 2
    for name, colour in _LAYERS.items():
        doc.layers.add(name, color=colour)
    corners = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1], [-1, -1]]) * half
    _add(space, corners, "FIELD")
    for _, at in work.marks:
        for way in np.eye(2) * _CROSS_MM:
            _add(space, np.array([at, at]) + np.array([-way, way]), "MARKS")
    for run in work.runs:
        for before, stretch in zip((None, *run), run, strict=False):
            if before is not None:
                _add(space, np.array([before[-1], stretch[0]]), "HOPS")
            _add(space, stretch, "LINES")
    space.reset_extents((*(-half).tolist(), 0.0), (*half.tolist(), 0.0))
    stream = io.StringIO()
    doc.write(stream)
    return stream.getvalue().encode("utf-8")


def decode_dxf(data: bytes, _work: LineWork) -> list[Stretches]:
    """Return the runs of a file just written.

    Raises:
        FormatError: The library's audit finds fault with it.
    """
    import ezdxf  # noqa: PLC0415 - slow to import

    doc = ezdxf.read(io.StringIO(data.decode("utf-8")))  # type: ignore[attr-defined]
    audit = doc.audit()
    if audit.has_errors or audit.has_fixes:
        raise FormatError("the dxf file does not pass its library's audit\nuse another format")
    runs: list[list[Points]] = []
    hops = False
    for line in doc.modelspace().query("LWPOLYLINE"):
        layer = line.dxf.layer
        if layer == "LINES":
            points = np.array(line.get_points("xy")) * (1, -1) + 0.0  # type: ignore[attr-defined]
            if hops:
                runs[-1].append(points)
            else:
                runs.append([points])
        hops = layer == "HOPS"
    return [tuple(run) for run in runs]


def _new_document() -> "Drawing":
    import ezdxf  # noqa: PLC0415 - slow to import, and seldom needed
    from ezdxf import options, units  # type: ignore[attr-defined]  # noqa: PLC0415

    # Else the day and a random mark are written; the same stitches give the same bytes.
    options.write_fixed_meta_data_for_testing = True
    return ezdxf.new("R2010", units=units.MM)  # type: ignore[attr-defined]


def _add(space: "Modelspace", points: Points, layer: str) -> None:
    up = (np.asarray(points) * (1, -1) + 0.0).tolist()
    line: Any = space.add_lwpolyline([], dxfattribs={"layer": layer})
    for start in range(0, len(up), _AT_ONCE):
        line.append_points(up[start : start + _AT_ONCE], format="xy")
