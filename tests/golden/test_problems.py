"""The texts a maker reads for bad projects: found by glob, renewed by --update-golden."""

import re
from pathlib import Path
from typing import Final

import pytest

from stitchpath.errors import ProjectError
from stitchpath.project import read_project, render_problems
from tests.conftest import Golden

FOLDER: Final = Path(__file__).parent / "problems"
PROJECTS: Final = sorted(FOLDER.glob("*.toml"))


def rendered(path: Path) -> str:
    text = path.read_text(encoding="utf-8")
    with pytest.raises(ProjectError) as caught:
        read_project(text)
    return render_problems(caught.value.problems, text=text, name=path.name) + "\n"


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_bad_project_is_told_as_in_its_golden_text(path: Path, golden: Golden) -> None:
    golden.check(rendered(path), path.with_suffix(".txt"))


def test_every_golden_text_has_its_project() -> None:
    assert len(PROJECTS) >= 15
    assert {path.stem for path in FOLDER.glob("*.txt")} == {path.stem for path in PROJECTS}


@pytest.mark.parametrize("path", PROJECTS, ids=lambda path: path.stem)
def test_messages_keep_to_the_house_rules(path: Path) -> None:
    """Lower case, no full stop, none of the words that say nothing."""
    for line in rendered(path).splitlines():
        message = re.match(r"error\[[a-z0-9-]+\]: (.*)|help: (.*)| +\| +\^+ (.*)", line)
        if message is None:
            continue
        said = next(group for group in message.groups() if group is not None)
        assert not said.endswith("."), line
        assert not said[:1].isupper(), line
        assert not re.search(r"\b(illegal|failed to|invalid)\b", said.lower()), line
