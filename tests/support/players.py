"""The hands and eyes of a reader at the stitch player."""

from collections.abc import Callable
from typing import TypeAlias

from playwright.sync_api import Page

Open: TypeAlias = Callable[..., Page]
"""Opens a plan's booklet from the disk; more words go to the browser's context."""


def shows(page: Page, name: str) -> str:
    """Return what a readout shows."""
    return page.locator(f"#shows-{name}").inner_text()


def choose(page: Page, what: str) -> None:
    page.locator("#scope").select_option(what)


def scrub(page: Page, points: int) -> None:
    """Move the slider as a hand does."""
    page.locator("#scrub").evaluate(
        "(slider, at) => { slider.value = at; slider.dispatchEvent(new Event('input')); }",
        points,
    )


def painted(page: Page, sheet: str) -> int:
    """Count the pixels of a sheet that are not clear. The browser warns that this is slow."""
    count = page.locator(f"#sheet-{sheet}").evaluate(
        "(sheet) => new Uint32Array(sheet.getContext('2d').getImageData(0, 0, sheet.width,"
        " sheet.height).data.buffer).reduce((sum, pixel) => sum + (pixel > 0), 0)"
    )
    return int(count)


def settled(page: Page) -> None:
    """Wait until a moved or zoomed picture is drawn anew, as it is once it rests."""
    page.evaluate(
        """() => new Promise((done) => {
          const { style } = document.getElementById("sheets");
          const look = () => (style.transform ? setTimeout(look, 50) : done());
          setTimeout(look, 300);
        })"""
    )


def held(page: Page) -> None:
    """Stop the page's clock, so that time goes on only as a test says."""
    page.clock.install(time=0)
    page.clock.pause_at(1000)
