"""The example designs take at most a tenth more hoopings than a bound, and weights prove it.

Of one it is not known: eight, where seven may do.

Slanting and dense lines need weights: spots on the lines, each with half the overlap on both
sides, of which no field, wherever it lies, holds more than 1; so as many fields are needed as
all weigh. All that is checked here with shapely and sums alone: that spots are stretches of the
lines, and that the fullest field holds no more. Where the weights came from does not matter.
"""

from math import ceil
from pathlib import Path

import numpy as np
import pytest
import shapely

from stitchpath.cli.files import load_project
from stitchpath.geometry.boxes import Boxes
from stitchpath.hoopings.bound import spots_along, step_of
from stitchpath.hoopings.needs import find_needs
from stitchpath.hoopings.places import kinds_of, room_of
from stitchpath.hoopings.weights import weigh
from stitchpath.layouts import lay_lines
from stitchpath.pieces import make_tasks
from stitchpath.pipeline import plan
from tests.support.command_line import DESIGNS

ROUNDING_MM = 0.15
"""What a field loses to rounding in files."""
NEAR_MM = 1e-3
"""How exactly spots are compared; fields are taken larger by so much."""


@pytest.mark.parametrize("path", sorted(DESIGNS.glob("*.toml")), ids=lambda path: path.stem)
def test_hoopings_are_at_most_a_tenth_more_than_the_bound(path: Path) -> None:
    for stage in plan(load_project(path)).stages:
        assert stage.bound <= len(stage.hoopings) <= 1.1 * stage.bound


@pytest.mark.parametrize(
    ("design", "share", "bound"),
    [("attic-quilt", 5, 24), ("ferry-throw", 5, 24), ("pier-blanket", 9, 8)],
)
def test_weights_prove_the_bound(design: str, share: int, bound: int) -> None:
    project = load_project(DESIGNS / f"{design}.toml")
    task = next(each for each in make_tasks(project) if each.name == "quilt")
    lines = lay_lines(task, unit=project.units).lines
    kinds, room_mm = kinds_of(project), room_of(project)
    needs = find_needs(lines, kinds, room_mm=room_mm)
    spots = spots_along(lines, needs, step_of(share, needs, kinds))
    weights = weigh(spots, kinds, wanted=bound)
    _check_stretches(spots, [shapely.LineString(line.points) for line in lines], room_mm)
    clear = 2 * project.hoopings.room + ROUNDING_MM - NEAR_MM
    width, height = (side - clear for side in project.machine.field)
    fullest = max(
        _heaviest(spots, weights, width, height), _heaviest(spots, weights, height, width)
    )
    assert ceil(weights.sum() / fullest - 1e-6) == bound


def _check_stretches(spots: Boxes, shapes: list[shapely.LineString], room_mm: float) -> None:
    """Check that each spot is filled by a stretch of a line no longer than the overlap."""
    tree = shapely.STRtree(shapes)
    for spot in spots:
        box = shapely.box(*(spot + NEAR_MM * np.array([-1, -1, 1, 1])))
        parts = [shapes[line].intersection(box) for line in tree.query(box).tolist()]
        assert any(
            part.length <= room_mm + 4 * NEAR_MM
            and np.abs(np.array(part.bounds) - spot).max() <= 2 * NEAR_MM
            for part in parts
            if not part.is_empty
        )


def _heaviest(boxes: Boxes, weights: np.ndarray, width: float, height: float) -> float:
    """Return the most weight in a rectangle; its left and top may be taken to touch a box."""
    most = 0.0
    for left in np.unique(boxes[:, 0]):
        inside = (left <= boxes[:, 0]) & (boxes[:, 2] <= left + width)
        tops, bottoms, own = boxes[inside, 1], boxes[inside, 3], weights[inside]
        held = (tops[:, None] <= tops) & (bottoms <= tops[:, None] + height)
        most = max(most, float((held * own).sum(axis=1).max()))
    return most
