"""Commands that the pages show by themselves work as they stand, on a starter project."""

import re
from pathlib import Path

import pytest

from tests.support.command_line import Shell

DOCS = Path(__file__).parents[2] / "docs"
_BLOCK = re.compile(r"^```sh\n(.*?)^```$", re.MULTILINE | re.DOTALL)
COMMANDS = [
    line
    for page in sorted(DOCS.glob("*.md"))
    for block in _BLOCK.findall(page.read_text(encoding="utf-8"))
    for line in block.splitlines()
    if line.startswith("stitchpath ")
]


@pytest.fixture
def started(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Shell:
    """Give a shell where `my-throw.toml` is written and made."""
    shell = Shell(folder=tmp_path, monkeypatch=monkeypatch, capsys=capsys)
    for line in ("new my-throw.toml", "make my-throw.toml --out my-throw"):
        assert shell.run(f"stitchpath {line}").code == 0
    return shell


def test_commands_of_the_pages_do_what_they_are_shown_for(started: Shell) -> None:
    assert {line.split()[1] for line in COMMANDS} >= {"refit", "count"}
    for line in COMMANDS:
        ran = started.run(line)
        assert ran.code == 0, (line, ran.err)
