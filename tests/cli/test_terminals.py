"""Pipes that close, full disks, poor encodings, odd names, narrow screens, completion."""

import json
import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from stitchpath.cli.files import wants_colour
from stitchpath.cli.terminal import plain
from tests.support.command_line import COMMAND, PLAIN, Shell, run_outside

_READER_GONE = 141  # 128 + SIGPIPE, as a shell shows it


@pytest.mark.parametrize("words", ["list layouts", "schema", "check rug.toml", "--version"])
def test_output_that_nobody_reads_ends_without_a_word(words: str, shell: Shell) -> None:
    read_end, write_end = os.pipe()
    os.close(read_end)
    done = subprocess.run(
        [*COMMAND, *words.split()],
        cwd=shell.folder,
        stdout=write_end,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(write_end)
    assert (done.returncode, done.stderr) == (_READER_GONE, b"")


@pytest.mark.parametrize("words", ["list layouts", "--help"])
def test_output_onto_a_full_disk_is_told(words: str, shell: Shell) -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [*COMMAND, *words.split()],
            cwd=shell.folder,
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
            text=True,
        )
    assert done.returncode == 1
    assert done.stderr.startswith("error: the ")
    assert done.stderr.endswith("No space left on device\n")


def test_words_that_cannot_be_written_leave_the_exit_code(shell: Shell) -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [*COMMAND, "check", "gone"],
            cwd=shell.folder,
            stdout=subprocess.PIPE,
            stderr=full,
            check=False,
        )
    assert (done.returncode, done.stdout) == (1, b"")


_POOR = [
    {"PYTHONIOENCODING": "ascii"},
    {"PYTHONIOENCODING": "latin-1"},
    {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
]


@pytest.mark.parametrize("env", _POOR, ids=str)
def test_poor_encoding_is_no_reason_to_fail(env: dict[str, str], shell: Shell) -> None:
    done = subprocess.run(
        [*COMMAND, "count", "named.toml"],
        cwd=shell.folder,
        env=os.environ | PLAIN | env,
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert b"\\U0001f9f5" in done.stdout


@pytest.mark.parametrize("env", [*_POOR, {"PYTHONIOENCODING": "utf-8"}], ids=str)
def test_json_is_json_in_every_encoding(env: dict[str, str], shell: Shell) -> None:
    done = subprocess.run(
        [*COMMAND, "count", "named.toml", "--json"],
        cwd=shell.folder,
        env=os.environ | PLAIN | env,
        capture_output=True,
        check=False,
    )
    (counted,) = json.loads(done.stdout.decode())
    assert counted["name"] == "Müllers [red]<b>&amp;</b>[/red] 🧵 שלום"


@pytest.mark.parametrize("name", ["two words", "Stoffe für Übung 🧵", "-", "a'b\"c", "a\tb"])
def test_odd_names_are_taken(name: str, shell: Shell) -> None:
    project, out = shlex.quote(f"./{name}/{name}.toml"), shlex.quote(f"./{name}/out")
    assert shell.run(f"stitchpath new {project}").code == 0
    rug = (shell.folder / "rug.toml").read_bytes()
    (shell.folder / name / f"{name}.toml").write_bytes(rug)
    ran = shell.run(f"stitchpath make {project} --out {out}")
    assert ran.code == 0, ran.err
    assert shell.run(f"stitchpath count {out}/seam/01.dst").code == 0


def test_name_that_is_not_utf_8_is_shown_escaped(shell: Shell) -> None:
    name = os.fsdecode(b"old-\xff.toml")
    (shell.folder / name).write_bytes((shell.folder / "rug.toml").read_bytes())
    text = run_outside("count", name, cwd=shell.folder)
    data = run_outside("count", name, "--json", cwd=shell.folder)
    assert (text.code, data.code) == (0, 0)
    assert r"(old-\udcff.toml)" in text.out
    assert json.loads(data.out)[0]["file"] == name


def test_name_cannot_steer_the_terminal(shell: Shell) -> None:
    ran = run_outside("check", "\x1b[31mred\x07.toml", cwd=shell.folder)
    assert r"`\x1b[31mred\x07.toml`" in ran.err
    assert "\x1b" not in ran.err


def test_plain_text_stays_as_it_is() -> None:
    assert plain("Grüße 🧵 שלום\nnext") == "Grüße 🧵 שלום\nnext"


@pytest.mark.parametrize("columns", ["1", "20", "400"])
def test_any_width_will_do(columns: str, shell: Shell) -> None:
    env = PLAIN | {"COLUMNS": columns}
    for words in ("--help", "corner --help", "count rug.toml"):
        assert shell.run(f"stitchpath {words}", env).code == 0


def _on_a_terminal(words: list[str], folder: Path, env: dict[str, str]) -> tuple[int, str]:
    """Run a command with standard error on a terminal; return its code and what it shows."""
    code = "import pty, sys; sys.exit(pty.spawn(sys.argv[1:]) >> 8)"
    done = subprocess.run(
        [sys.executable, "-c", code, *COMMAND, *words],
        cwd=folder,
        env={name: text for name, text in os.environ.items() if name != "NO_COLOR"} | env,
        capture_output=True,
        check=False,
        stdin=subprocess.DEVNULL,
    )
    return done.returncode, done.stdout.decode()


def test_colour_is_for_terminals_that_want_it(shell: Shell) -> None:
    coloured = _on_a_terminal(["check", "wrong.toml"], shell.folder, {"TERM": "xterm"})
    bare = _on_a_terminal(["check", "wrong.toml"], shell.folder, PLAIN)
    assert coloured[0] == bare[0] == 1
    assert "\x1b[" in coloured[1]
    assert "\x1b[" not in bare[1]


def test_windows_is_given_colour_where_its_terminal_shows_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.delenv("WT_SESSION", raising=False)
    assert wants_colour()
    with monkeypatch.context() as patch:
        patch.setattr(sys, "platform", "win32")
        assert not wants_colour()
        patch.setenv("WT_SESSION", "a name of its own")
        assert wants_colour()


def test_long_work_shows_how_far_it_is(shell: Shell) -> None:
    (shell.folder / "long.toml").write_text("[quilt]\nwidth = 1100\nlength = 1500\n")
    code, shown = _on_a_terminal(
        ["make", "long.toml", "--out", "long"], shell.folder, {"TERM": "xterm"}
    )
    assert code == 0, shown
    assert "hoopings" in shown
    assert "%" in shown


def test_shell_completion_works(shell: Shell) -> None:
    named = PLAIN | {
        "_TYPER_COMPLETE_TEST_DISABLE_SHELL_DETECTION": "1"
    }  # else it asks who runs it
    script = run_outside("--show-completion", "bash", cwd=shell.folder, env=named)
    assert script.code == 0
    assert "complete -o default -F" in script.out
    asked = {"_STITCHPATH_COMPLETE": "complete_bash", "COMP_CWORD": "2"}
    for typed, offered in {"list b": "battings\nbobbins", "preview --sta": "--stage"}.items():
        env = PLAIN | asked | {"COMP_WORDS": f"stitchpath {typed}"}
        assert run_outside(cwd=shell.folder, env=env).out.strip() == offered
