"""What is told of repeats that do not fill an area: how much of one is left at its sides."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import isclose
from typing import Final

import numpy as np
import shapely

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.layouts._layout import Ground, Layout
from stitchpath.layouts._placement import whole_stretch
from stitchpath.layouts._registry import find_layout
from stitchpath.model.finding import Finding, Level
from stitchpath.model.quilt import Quilting
from stitchpath.units import Unit, format_length

SEEN: Final = 0.125
"""Of a repeat: where what is left is nearer to a whole or a half one, it looks meant. Common
practice, no source."""

_STRAIGHT: Final = 0.98
"""Of its upright box, an area whose sides are straight enough to see a gap beside them."""

_SIDES: Final = {"across": ("left", "right"), "down": ("top", "bottom")}


@dataclass(frozen=True, slots=True, kw_only=True)
class _OddGap:
    """What is left beside whole repeats: which way, at both sides, of which repeat, mm.

    Attributes:
        way: `across` or `down` the piece.
        gaps: At the left or upper side, and at the right or lower one.
        repeat: A whole repeat.
        step: What comes out even if it is left: a half one from the centre.
        stretch: By what factor whole repeats would fill the area.
    """

    way: str
    gaps: tuple[float, float]
    repeat: float
    step: float
    stretch: float

    @property
    def is_seen(self) -> bool:
        """Whether what is left looks neither whole nor, from the centre, half."""
        off = max(abs(gap - self.step * round(gap / self.step)) for gap in self.gaps)
        return SEEN * self.repeat < off


def odd_gap_notes(
    ground: Ground, spec: Quilting, *, stage: str, unit: Unit
) -> Iterator[Finding]:
    """Say where the last repeats are cut: a warning where whole ones were asked for.

    Args:
        ground: Where the layout lies, in the piece's frame.
        spec: The layout.
        stage: The stage's name.
        unit: In which lengths are told.
    """
    layout = find_layout(spec.layout)
    if layout.repeat is None or (layout.turns and spec.angle % 90):
        if spec.fit:
            yield Finding(
                code="odd-gap",
                level=Level.WARNING,
                text=f"the layout {spec.layout} cannot be fitted here",
                help="leave `fit` out; layouts that repeat are fitted at angles of 0 and 90",
                stage=stage,
            )
        return
    for odd in _odd_gaps(ground, layout, spec):
        told = _unfitted(odd, spec, unit) if spec.fit else _seen(odd, spec, unit)
        text, advice = told
        yield Finding(
            code="odd-gap",
            level=Level.WARNING if spec.fit else Level.NOTE,
            text=text,
            help=advice,
            stage=stage,
            value=max(odd.gaps),
            limit=odd.repeat,
        )


def _odd_gaps(ground: Ground, layout: Layout, spec: Quilting) -> Iterator[_OddGap]:
    steps = layout.repeat(spec) if layout.repeat is not None else (0.0, 0.0)
    shows = (True, True) if spec.fit else layout.cut_shows
    if layout.turns and spec.angle % 180:
        steps, shows = steps[::-1], shows[::-1]
    if not (spec.fit or _has_straight_sides(ground)):
        return
    middle = ground.centre if spec.at is None or spec.fit else spec.at
    # to a line near the edge, or to the edge itself: a maker may have counted either way
    bounds, frame = np.reshape([ground.region.bounds, ground.frame], (2, 2, 2)).tolist()
    for axis, way in enumerate(_SIDES):
        if steps[axis] and shows[axis]:
            sides = ((box[0][axis], box[1][axis]) for box in (bounds, frame))
            odd, other = (_left_over(way, middle[axis], s, steps[axis], spec) for s in sides)
            is_unfitted = spec.fit and spec.fit_limit < abs(odd.stretch - 1)
            if is_unfitted or (not spec.fit and odd.is_seen and other.is_seen):
                yield odd


def _has_straight_sides(ground: Ground) -> bool:
    box = shapely.box(*ground.region.bounds)
    return bool(_STRAIGHT * box.area <= ground.region.convex_hull.area)


def _left_over(
    way: str, middle: float, sides: tuple[float, float], step: float, spec: Quilting
) -> _OddGap:
    low, high = sides
    is_centred = spec.start == "centre"
    repeat = 2 * step if is_centred else step
    near = _rest(middle - low, repeat) if is_centred else 0.0
    far = _rest(high - (middle if is_centred else low), repeat)
    stretch = whole_stretch(high - low, step, spec)
    return _OddGap(way=way, gaps=(near, far), repeat=repeat, step=step, stretch=stretch)


def _rest(length: float, repeat: float) -> float:
    """Return what whole repeats leave of a length; nothing where only rounding is left."""
    rest = length % repeat
    return 0.0 if repeat - rest < SAME_POINT_MM else rest


def _unfitted(odd: _OddGap, spec: Quilting, unit: Unit) -> tuple[str, str]:
    repeat = format_length(odd.repeat, unit)
    text = (
        f"whole repeats of {repeat} would have to be stretched by more than "
        f"{spec.fit_limit:.0%} to fill the area {odd.way}; {_left(odd, spec, unit)}"
    )
    return text, "choose another spacing, or a larger `fit_limit`"


def _seen(odd: _OddGap, spec: Quilting, unit: Unit) -> tuple[str, str]:
    repeat = format_length(odd.repeat, unit)
    text = (
        f"the layout {spec.layout} does not come out even {odd.way}: beside whole repeats of "
        f"{repeat}, {_left(odd, spec, unit)}"
    )
    advice = []
    if abs(odd.stretch - 1) <= spec.fit_limit:
        advice.append("write `fit = true`")
    if _scales(spec, odd.stretch):
        advice.append(f"make the spacing {format_length(spec.spacing * odd.stretch, unit)}")
    return text, ", or ".join(advice or ["choose another size of repeat"])


def _left(odd: _OddGap, spec: Quilting, unit: Unit) -> str:
    """Say how much is left at both sides."""
    near, far = (format_length(gap, unit) for gap in odd.gaps)
    one, other = _SIDES[odd.way]
    if near == far:
        return f"{near} is left at both sides"
    if spec.start == "edge":
        return f"{far} is left at the far side"
    return f"{near} is left at the {one} and {far} at the {other}"


def _scales(spec: Quilting, stretch: float) -> bool:
    """Tell whether the spacing alone makes the repeat."""
    repeat = find_layout(spec.layout).repeat
    if repeat is None:
        return False
    scaled = repeat(replace(spec, spacing=spec.spacing * stretch))
    return all(
        isclose(after, before * stretch)
        for before, after in zip(repeat(spec), scaled, strict=True)
    )
