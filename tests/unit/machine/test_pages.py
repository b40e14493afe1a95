"""The pages about stitch files name files that are there."""

import re
from pathlib import Path

import pytest

_ROOT = Path(__file__).parents[3]
_PAGES = ("docs/formats.md", "docs/decisions/0002-own-dst-exp-codecs.md")


@pytest.mark.parametrize("page", _PAGES)
def test_files_named_on_the_page_are_there(page: str) -> None:
    text = (_ROOT / page).read_text(encoding="utf-8")
    named = re.findall(r"`((?:stitchpath|tests|docs)/[\w./-]+\.\w+)`", text)
    linked = re.findall(r"\]\(([\w./-]+\.md)\)", text)
    assert named
    missing = [name for name in named if not (_ROOT / name).is_file()]
    missing += [name for name in linked if not ((_ROOT / page).parent / name).is_file()]
    assert missing == []
