"""How large the booklet of a king-size quilt is, how soon it can be used, how fast it scrubs.

About 440,000 stitches in 150 hoopings; in headless Chromium, opened from the disk.
"""

from pathlib import Path
from typing import Final

import numpy as np
import pytest
from playwright.sync_api import Browser, Page, expect
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.model.plan import Plan
from stitchpath.preview import draw_booklet
from stitchpath.preview.booklet.player import player_data
from tests.support.timing import timed

MOST_BYTES_A_STITCH = 6
INTERACTIVE_SECONDS = 2.0
FRAME_SECONDS = 0.016
WORST_SECONDS = 0.050
_TEST_FRAME: Final = """async (chosen) => {
  const slider = document.getElementById("scrub");
  const times = [];
  for (const at of chosen) {
    const begun = performance.now();
    slider.value = at;
    slider.dispatchEvent(new Event("input"));
    times.push((performance.now() - begun) / 1000);
    await new Promise((shown) => requestAnimationFrame(shown));
  }
  return times;
}"""


@pytest.fixture(scope="module")
def booklet(king: Plan, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("king") / "booklet.html"
    path.write_text(draw_booklet(king, {}), encoding="utf-8")
    return path


@pytest.mark.slow
def test_needle_points_of_a_king_size_quilt(benchmark: BenchmarkFixture, king: Plan) -> None:
    data = benchmark(player_data, king)
    counts = [hooping["count"] for stage in data["stages"] for hooping in stage["hoopings"]]
    assert sum(counts) == king.figures.stitches > 400_000


@pytest.mark.slow
def test_booklet_of_a_king_size_quilt(benchmark: BenchmarkFixture, king: Plan) -> None:
    text = timed(benchmark, lambda: draw_booklet(king, {}), rounds=5)
    assert len(text.encode()) <= MOST_BYTES_A_STITCH * king.figures.stitches


@pytest.mark.slow
def test_king_size_booklet_can_be_used(
    benchmark: BenchmarkFixture, king: Plan, booklet: Path, browser: Browser
) -> None:
    """From asking for the page until a button of the player has done its work."""
    pages: list[Page] = []

    def opened() -> Page:
        page = pages[-1]
        page.goto(booklet.as_uri())
        page.locator("#go-on").click()
        expect(page.locator("#shows-stitch")).to_have_text(f"1 of {king.figures.stitches:,}")
        return page

    timed(benchmark, opened, rounds=5, before=lambda: pages.append(browser.new_page()))
    if benchmark.stats is not None:  # it is, as soon as times are asked for
        assert benchmark.stats.stats.median <= INTERACTIVE_SECONDS


@pytest.mark.slow
def test_scrubbing_a_king_size_quilt(
    benchmark: BenchmarkFixture, king: Plan, booklet: Path, browser: Browser
) -> None:
    page = browser.new_page()
    page.goto(booklet.as_uri())
    count = king.figures.stitches
    chosen = np.random.default_rng(3).integers(1, count + 1, 100).tolist()
    times = timed(benchmark, lambda: page.evaluate(_TEST_FRAME, chosen), rounds=1)
    assert page.locator("#shows-stitch").inner_text() == f"{chosen[-1]:,} of {count:,}"
    benchmark.extra_info["scrub median, worst"] = [float(np.median(times)), max(times)]
    if benchmark.stats is not None:
        assert np.median(times) <= FRAME_SECONDS
        assert max(times) <= WORST_SECONDS
