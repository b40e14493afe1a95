"""Clamshell: rows of half circles, each row shifted by half a shell, like scales or roof tiles.

Construction: half circles of radius r = `spacing` / 2, open below, side by side; rows lie r
apart, and every other row is shifted by r, so that a shell's top touches the valley of the row
above it and its foot is the valley below. Each row is one continuous scalloped line. The middle
of a shell, from top to foot, lies on the centre; from the edge, the first shell touches the
left and the upper edge. The row nearest to the middle is the anchor. Shells are cut cleanly at
the margin; fitted, that is at their axis, and at the tops and valleys of a row. The widest gap
is the largest circle in a shell, 4 r / 3 = 0.67 spacing.

Source: half circles of a width, joined in a row and stacked in an offset grid, rows half a
width deep: "Rulerwork for Beginners, Part 4: Clamshells", weallsew.com, and "Clamshell
patchwork", kathykwylie.com. Geometry: elementary.
"""

from math import pi
from typing import Final

from stitchpath.layouts import _waves
from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return one scalloped strand to each row, from the top."""
    radius = spec.spacing / 2
    across = _waves.find_lattice(
        ground, spec, spec.spacing, axis=_waves.ACROSS, edge=_waves.BETWEEN
    )
    down = _waves.find_lattice(ground, spec, radius, axis=_waves.DOWN, edge=_waves.ON_EDGE)
    starts = _waves.Lattice(origin=across.origin - radius, step=spec.spacing)
    low, high = _waves.extent(ground, _waves.ACROSS)
    # one shell more at the left, for rows that are shifted to the right
    line = _waves.long_line(_waves.bow(spec.spacing, pi / 2), starts, low - radius, high)
    whole, shifted = (line,), (_waves.shifted(line, across=radius),)
    # from the edge, index 0 is the line of the tops of the first row, not of its valleys
    lines = (shifted, whole) if spec.start == "edge" else (whole, shifted)
    top, bottom = _waves.extent(ground, _waves.DOWN)
    return _waves.lay_rows(lines, down, (top, bottom + radius), middle=ground.centre[1])


def _repeat(spec: Quilting) -> tuple[float, float]:
    return _waves.whole_steps(spec, spec.spacing, spec.spacing / 2)


LAYOUT: Final = Layout(
    summary="rows of half circles, `spacing` wide, like scales",
    make=make,
    keys={"spacing": "75 mm, across a shell", "start": "centre"},
    repeat=_repeat,
    density=evenly(pi),
)
