"""The README's commands work, and show what they show."""

import re
import shlex
import shutil
import subprocess
from pathlib import Path
from typing import Final

import pytest

from stitchpath.cli.app import app
from tests.support.command_line import DESIGNS, Ran, Shell

ROOT: Final = DESIGNS.parent
README: Final = (ROOT / "README.md").read_text(encoding="utf-8")


def _marked(name: str) -> str:
    """Return the command under a mark such as `<!-- make -->`."""
    (found,) = re.findall(
        rf"^<!-- {name} -->\n```sh\n(.*?)\n```$", README, re.MULTILINE | re.DOTALL
    )
    return str(found)


def _rows(head: str) -> list[list[str]]:
    """Return the rows of the table that begins with a head."""
    _, _, rest = README.partition(f"{head}\n")
    rows = rest.split("\n\n")[0].splitlines()[1:]
    assert rows
    cells = [re.split(r"(?<!\\)\|", row.strip().strip("|")) for row in rows]
    return [[cell.strip() for cell in row] for row in cells]


@pytest.fixture
def made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> tuple[Ran, Path]:
    """Run what the README's first command runs once everything is installed."""
    *install, make = _marked("make").split(" && ")
    assert install == ["python3 -m venv .venv", ".venv/bin/pip install -q ."]
    words = shlex.split(make)
    assert words[0] == ".venv/bin/stitchpath"
    shutil.copytree(DESIGNS, tmp_path / "designs")
    shell = Shell(folder=tmp_path, monkeypatch=monkeypatch, capsys=capsys)
    return shell.run(shlex.join(["stitchpath", *words[1:]])), tmp_path / words[-1]


def test_first_command_makes_what_the_readme_lists(made: tuple[Ran, Path]) -> None:
    ran, folder = made
    assert ran.code == 0, ran.err
    for _, where in _rows("| what | where |"):
        for path in re.findall(r"`([^`]+)`", where):
            assert (folder / path).is_file(), path


def test_first_command_prints_the_table_that_the_readme_shows(made: tuple[Ran, Path]) -> None:
    (shown,) = re.findall(r"^```text\n(.*?)\n```$", README, re.MULTILINE | re.DOTALL)
    assert made[0].out.startswith(f"{shown}\n")


def test_second_command_is_what_ci_runs() -> None:
    ci = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    (reading,) = re.findall(r"^tests=\$\(.*\)$", ci, re.MULTILINE)
    echoed = subprocess.run(
        ["bash", "-euo", "pipefail", "-c", f'{reading}; printf %s "$tests"'],
        cwd=ROOT,
        capture_output=True,
        check=True,
        text=True,
    )
    assert echoed.stdout == _marked("tests")
    assert ci.splitlines()[-1] == 'bash -euo pipefail -c "$tests"'


def test_second_command_installs_what_the_tests_need_and_runs_them_all() -> None:
    assert _marked("tests").split(" && ") == [
        "python3 -m venv .venv",
        ".venv/bin/pip install -q -e '.[dev]'",
        ".venv/bin/python -m pytest -n auto --dist worksteal --cov",
    ]


def test_commands_are_those_that_there_are() -> None:
    named = {re.findall(r"`stitchpath (\w+)", row[0])[0] for row in _rows("| command | does |")}
    there = {
        command.name or getattr(command.callback, "__name__", "")
        for command in app.registered_commands
    }
    assert named == there


def test_own_project_of_the_readme_can_be_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    text, layout = re.findall(r"^```toml\n(.*?)\n```$", README, re.MULTILINE | re.DOTALL)
    shell = Shell(folder=tmp_path, monkeypatch=monkeypatch, capsys=capsys)
    for project in (text, f"{text}\n{layout}"):
        (tmp_path / "my-throw.toml").write_text(project, encoding="utf-8")
        ran = shell.run("stitchpath check my-throw.toml")
        assert ran.code == 0, ran.err
        assert "0 errors, 0 warnings" in ran.out
