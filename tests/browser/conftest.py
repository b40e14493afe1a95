"""Booklets opened from the disk, without a network."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from stitchpath.model.plan import Plan
from stitchpath.preview.booklet import draw_booklet
from tests.support.booklets import cautious, files_of
from tests.support.players import Open


@pytest.fixture
def open_booklet(browser: Browser, tmp_path: Path) -> Iterator[Open]:
    """Give what opens booklets; afterwards nothing may have been said or asked for."""
    heard: list[str] = []
    contexts = []

    def open_one(plan: Plan, *, script: str = "", quiet: bool = True, **context: Any) -> Page:  # noqa: ANN401
        path = tmp_path / "booklet.html"
        path.write_text(draw_booklet(cautious(plan), files_of(plan)), encoding="utf-8")
        wide: dict[str, Any] = {"offline": True, "viewport": {"width": 1200, "height": 900}}
        contexts.append(browser.new_context(**(wide | context)))
        page = contexts[-1].new_page()
        if quiet:
            page.on("console", lambda message: heard.append(message.text))
            page.on("pageerror", lambda error: heard.append(str(error)))
            page.on("request", lambda asked: heard.append(asked.url))
        if script:
            page.add_init_script(script)
        page.goto(path.as_uri())
        return page

    yield open_one
    for context in contexts:
        context.close()
    own = (tmp_path / "booklet.html").as_uri()
    assert [said for said in heard if said != own] == []
