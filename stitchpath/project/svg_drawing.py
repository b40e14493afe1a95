"""A maker's own SVG file as strokes in mm.

Read: the outlines of paths and basic shapes, wherever they are painted at all, be it by a
stroke or by a fill; groups, links, `<use>`, symbols, nested drawings; transforms; units,
viewBox and preserveAspectRatio. Left out, and said so: what is hidden or not painted, and what
has no strokes. Clip paths, masks and dashes change nothing: the whole outline is sewn.
"""

from collections import Counter
from collections.abc import Mapping
from typing import Final
from xml.etree.ElementTree import Element

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import FLATNESS_MM
from stitchpath.model.drawing import Drawing
from stitchpath.project.svg_curves import Stroke, flatten
from stitchpath.project.svg_gate import SVG, parse_svg
from stitchpath.project.svg_outlines import Outlines

MOST_POINTS: Final = 200_000
"""Of one drawing, its curves flattened."""

_FINEST: Final = 4e-6
"""Flatness as a part of the drawing's width: within `FLATNESS_MM` still when it is scaled to
2.5 m."""

_WHY: Final[Mapping[str, str]] = {
    "hidden": "it is hidden",
    "unpainted": "it has neither stroke nor fill",
    "dot": "a single point is no stroke",
    "use": "it repeats what is not in the file",
    "text": "letters are no strokes; turn them into paths",
    "image": "a picture has no strokes",
    "foreignObject": "it is not SVG",
    "linearGradient": "colours are not sewn",
    "radialGradient": "colours are not sewn",
    "pattern": "fills are not sewn",
    "marker": "it is not sewn",
    "filter": "it is not sewn",
    "clipPath": "shapes are sewn whole",
    "mask": "shapes are sewn whole",
    "script": "nothing in a drawing is run",
    "animate": "a quilt does not move",
    "animateTransform": "a quilt does not move",
    "animateMotion": "a quilt does not move",
    "set": "a quilt does not move",
}


def read_drawing(data: bytes, name: str) -> Drawing:
    """Return the strokes of an SVG file.

    Args:
        data: The file's bytes.
        name: What the project calls the file.

    Returns:
        Strokes in mm, 96 CSS pixels to the inch, curves flattened within `FLATNESS_MM` and far
        finer in a small drawing.

    Raises:
        ValueError: The file is no SVG, cannot be read, is too much, or has no strokes; the
            message says which, and stands by itself.

    Example:
        >>> svg = '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0,0H96V96"/></svg>'
        >>> read_drawing(svg.encode(), "corner.svg").strokes[0].round(6).tolist()
        [[0.0, 0.0], [25.4, 0.0], [25.4, 25.4]]
    """
    root = parse_svg(data)
    outlines = Outlines(root)
    with np.errstate(all="ignore"):  # numbers out of range are refused where they arrive
        seen = list(outlines.strokes())
        flat = _flattened(seen)
    strokes = [points for points in flat if len(points) > 1]
    if not strokes:
        raise ValueError("the file has no strokes: no line or shape in it is seen")
    ignored = outlines.ignored + _without_strokes(root)
    ignored["dot"] = len(flat) - len(strokes)
    return Drawing(source=name, strokes=tuple(strokes), ignored=_told(ignored))


def _flattened(seen: list[Stroke]) -> list[Points]:
    left, flatness = MOST_POINTS, _flatness(seen)
    flat: list[Points] = []
    for stroke in seen:
        flat.append(flatten(stroke, flatness, left))
        left -= len(flat[-1])
    return flat


def _flatness(strokes: list[Stroke]) -> float:
    if not strokes:
        return FLATNESS_MM
    corners = np.concatenate([curve.corners() for stroke in strokes for curve in stroke.curves])
    width, height = np.ptp(corners, axis=0)
    return max(min(FLATNESS_MM / 2, _FINEST * max(float(width), float(height) / 100)), 1e-9)


def _without_strokes(root: Element) -> Counter[str]:
    tags = Counter(str(element.tag).removeprefix(SVG) for element in root.iter())
    return Counter({tag: count for tag, count in tags.items() if tag in _WHY and tag != "use"})


def _told(ignored: Counter[str]) -> tuple[str, ...]:
    return tuple(
        f"{name} ({ignored[name]}): {why}" for name, why in _WHY.items() if ignored[name]
    )
