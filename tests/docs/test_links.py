"""What the pages name is there: files, headings, modules."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Final

import pytest

ROOT: Final = Path(__file__).parents[2]
PAGES: Final = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted(ROOT.glob("docs/**/*.md"))]
_HOMES: Final = (ROOT, ROOT / "stitchpath")
"""Where a path in backticks may begin; a bare name may stand anywhere in the package."""
_PATH: Final = re.compile(r"`((?:stitchpath|tests|docs|designs|\.ci)/[\w./-]*|[\w./-]+\.py)`")


def _name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def _prose(page: Path) -> str:
    """Return a page without its code blocks."""
    return re.sub(
        r"^```.*?^```$", "", page.read_text(encoding="utf-8"), flags=re.MULTILINE | re.DOTALL
    )


def _links(page: Path) -> Iterator[str]:
    for target in re.findall(r"\]\(([^)\s]+)\)", _prose(page)):
        if not re.match(r"[a-z]+:", target):
            yield target


def _anchors(page: Path) -> set[str]:
    """Return the anchors of a page's headings: lower case, words joined by hyphens."""
    heads = re.findall(r"^#+ (.*)$", _prose(page), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", head.lower()).replace(" ", "-") for head in heads}


@pytest.mark.parametrize("page", PAGES, ids=_name)
def test_links_lead_somewhere(page: Path) -> None:
    for link in _links(page):
        path, _, anchor = link.partition("#")
        target = page.parent / path if path else page
        assert target.exists(), link
        assert not anchor or anchor in _anchors(target), link


@pytest.mark.parametrize("page", PAGES, ids=_name)
def test_paths_in_backticks_are_there(page: Path) -> None:
    for path in _PATH.findall(_prose(page)):
        beside = [] if "/" in path else list((ROOT / "stitchpath").rglob(path))
        assert beside or any((home / path).exists() for home in _HOMES), path
