"""The example designs take at most a tenth more hoopings, rounded up, than a bound proved here.

For most of them the plan's own bound is near enough. Slanting lines need a finer one: places on
the lines with weights (found by a linear programme, kept beside this file). No field, wherever
it lies, holds more than w of the weight of those places, each with half the overlap on both
sides; so the whole weight over w fields are needed at the least. That is all checked here, with
shapely and sums alone; where the weights came from does not matter.
"""

import csv
from math import ceil
from pathlib import Path

import numpy as np
import pytest
import shapely
from shapely.ops import substring

from stitchpath.cli.files import load_project
from stitchpath.layouts import lay_lines
from stitchpath.pieces import make_tasks
from stitchpath.pipeline import plan
from tests.support.command_line import DESIGNS

WEIGHTS = Path(__file__).parent / "attic_weights.csv"
ROUNDING_MM = 0.15
"""What a field loses to rounding in files."""
NEAR_MM = 0.01
"""Places are kept to a thousandth of a millimetre."""


def _attic_bound() -> int:
    project = load_project(DESIGNS / "attic-quilt.toml")
    (task,) = make_tasks(project)
    shapes = [shapely.LineString(line.points) for line in lay_lines(task, unit="mm").lines]
    half = project.hoopings.overlap / 2
    rows = list(csv.DictReader(WEIGHTS.read_text(encoding="utf-8").splitlines()))
    boxes = [_stretch(shapes, float(row["x"]), float(row["y"]), half) for row in rows]
    weights = np.array([int(row["weight"]) for row in rows])
    width, height = (side - ROUNDING_MM + NEAR_MM for side in project.machine.field)
    most = max(
        _heaviest(np.array(boxes), weights, width, height),
        _heaviest(np.array(boxes), weights, height, width),
    )
    return ceil(int(weights.sum()) / most)


def _stretch(shapes: list[shapely.LineString], x: float, y: float, half: float) -> list[float]:
    """Return the box of half the overlap on both sides of a place on one of the lines."""
    place = shapely.Point(x, y)
    line = min(shapes, key=place.distance)
    assert line.distance(place) <= NEAR_MM
    along = line.project(place)
    return list(substring(line, max(0.0, along - half), along + half).bounds)


def _heaviest(boxes: np.ndarray, weights: np.ndarray, width: float, height: float) -> int:
    """Return the most weight in a rectangle; its left and top may be taken to touch a box."""
    most = 0
    for left in np.unique(boxes[:, 0]):
        inside = (left <= boxes[:, 0]) & (boxes[:, 2] <= left + width)
        tops, bottoms, own = boxes[inside, 1], boxes[inside, 3], weights[inside]
        held = (tops[:, None] <= tops) & (bottoms <= tops[:, None] + height)
        most = max(most, int((held * own).sum(axis=1).max()))
    return most


@pytest.mark.parametrize("path", sorted(DESIGNS.glob("*.toml")), ids=lambda path: path.stem)
def test_hoopings_are_at_most_a_tenth_more_than_a_bound(path: Path) -> None:
    for stage in plan(load_project(path)).stages:
        bound = _attic_bound() if path.stem == "attic-quilt" else stage.bound
        assert stage.bound <= bound <= len(stage.hoopings) <= ceil(1.1 * bound)
