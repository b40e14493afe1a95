"""How fast pictures are written and how large they become.

The design: a king-size quilt, 108 x 108 in, half-inch crosshatch at 3 mm, about 440,000
stitches in 150 hoopings.
"""

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.model.plan import Plan
from stitchpath.preview import draw_hooping, draw_stage
from stitchpath.preview.path_data import lines_data
from stitchpath.preview.polylines import Polylines

MOST_BYTES = 5_000_000
LEAST_POINTS_PER_SECOND = 2_000_000


def test_path_data_of_four_hundred_thousand_points(benchmark: BenchmarkFixture) -> None:
    walk = np.cumsum(np.random.default_rng(1).normal(0, 2.0, (400_000, 2)), axis=0)
    lines = Polylines(points=walk, starts=np.arange(0, 400_000, 80))
    data = benchmark(lines_data, lines, per_mm=10)
    assert data.count("m") == 5_000
    if benchmark.stats is not None:  # it is, as soon as times are asked for
        assert 400_000 / benchmark.stats.stats.median >= LEAST_POINTS_PER_SECOND


@pytest.mark.slow
def test_picture_of_a_king_size_stage(benchmark: BenchmarkFixture, king: Plan) -> None:
    svg = benchmark(draw_stage, king, king.stages[0])
    assert king.figures.stitches > 400_000
    assert len(svg.encode()) < MOST_BYTES


@pytest.mark.slow
def test_picture_of_a_dense_hooping(benchmark: BenchmarkFixture, king: Plan) -> None:
    stage = king.stages[0]
    svg = benchmark(draw_hooping, king, stage, stage.hoopings[70])
    assert 'id="needle-points"' in svg
