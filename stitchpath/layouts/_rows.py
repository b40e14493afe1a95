"""Rows of waves: across an area, or round a border."""

from stitchpath.layouts import _waves
from stitchpath.layouts._border import lay_round, runs_round
from stitchpath.layouts._layout import Ground, Strand
from stitchpath.layouts._waves import Wave
from stitchpath.model.quilt import Quilting


def lay_waves(
    ground: Ground,
    spec: Quilting,
    waves: tuple[Wave, ...],
    *,
    period_mm: float,
    amplitude_mm: float,
) -> tuple[Strand, ...]:
    """Return rows of waves, `spacing` apart; each row has all of them.

    From the centre, the middle of a period and of a row lies on the centre; from the edge, the
    first period begins on the left edge and the first row lies half a spacing below the upper
    one. The row nearest to the middle is the anchor. On a border rows run round it, if it has
    room for their corners.
    """
    if runs_round(spec):
        closed = lay_round(ground, spec, waves, period_mm=period_mm, amplitude_mm=amplitude_mm)
        if closed:
            return closed
    periods = _waves.find_lattice(
        ground, spec, period_mm, axis=_waves.ACROSS, edge=_waves.BETWEEN
    )
    rows = _waves.find_lattice(
        ground, spec, spec.spacing, axis=_waves.DOWN, edge=_waves.BETWEEN
    )
    starts = _waves.Lattice(origin=periods.origin - period_mm / 2, step=period_mm)
    # a loop reaches back and ahead of its period, by less than its amplitude
    across = _waves.extent(ground, _waves.ACROSS, reach_mm=amplitude_mm)
    lines = tuple(
        _waves.long_line(_waves.wave_unit(wave, period_mm), starts, *across) for wave in waves
    )
    down = _waves.extent(ground, _waves.DOWN, reach_mm=amplitude_mm)
    return _waves.lay_rows((lines,), rows, down, middle=ground.centre[1])


def wave_repeat(spec: Quilting, period_mm: float) -> tuple[float, float]:
    """Return the repeat of rows of waves; round a border they fit themselves."""
    return (0.0, 0.0) if runs_round(spec) else _waves.whole_steps(spec, period_mm, spec.spacing)
