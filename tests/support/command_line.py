"""The command line as a shell calls it: in this process for speed, or in one of its own."""

import os
import shlex
import signal
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from stitchpath.cli.run import run_and_exit

DESIGNS = Path(__file__).parents[2] / "designs"
PLAIN = {"COLUMNS": "80", "NO_COLOR": "1", "TERM": "dumb"}
"""A terminal of 80 columns without colour."""
COMMAND = [sys.executable, "-m", "stitchpath"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ran:
    """What a command came to."""

    line: str
    code: int
    out: str
    err: str

    @property
    def screen(self) -> str:
        """What a maker sees of it."""
        parts = [f"$ {self.line}\n", self.out]
        if self.err:
            parts += ["[stderr]\n", self.err]
        return "".join([*parts, f"[exit {self.code}]\n"])


@dataclass(frozen=True, slots=True, kw_only=True)
class Shell:
    """Runs command lines in this process, in a folder of its own."""

    folder: Path
    monkeypatch: pytest.MonkeyPatch
    capsys: pytest.CaptureFixture[str]

    def run(self, line: str, env: Mapping[str, str] = PLAIN) -> Ran:
        """Run `stitchpath ...` as typed, with more in its environment."""
        words = shlex.split(line)
        assert words[0] == "stitchpath"
        before = signal.getsignal(signal.SIGINT)
        self.capsys.readouterr()
        with self.monkeypatch.context() as patch:
            patch.chdir(self.folder)
            patch.setattr(sys, "argv", words)
            for name, value in env.items():
                patch.setenv(name, value)
            with pytest.raises(SystemExit) as left:
                run_and_exit()
        signal.signal(signal.SIGINT, before)
        said = self.capsys.readouterr()
        code = left.value.code
        assert isinstance(code, int)
        return Ran(line=line, code=code, out=said.out, err=said.err)


def run_outside(*words: str, cwd: Path, env: Mapping[str, str] = PLAIN) -> Ran:
    """Run a command in a process of its own, with more in its environment."""
    done = subprocess.run(
        [*COMMAND, *words],
        cwd=cwd,
        env=os.environ | env,
        capture_output=True,
        check=False,
        timeout=60,
    )
    return Ran(
        line=shlex.join(["stitchpath", *words]),
        code=done.returncode,
        out=done.stdout.decode(),
        err=done.stderr.decode(),
    )


def assert_well_said(ran: Ran) -> None:
    """Fail where an error is not said as every error here is."""
    assert ran.out == ""
    lines = ran.err.splitlines()
    assert lines, "an error is said"
    assert lines[0].startswith("error"), ran.err
    assert not lines[0].endswith("."), ran.err
    for word in ("Traceback", "illegal", "failed to", "invalid", "Errno", "bug"):
        assert word.casefold() not in ran.err.casefold(), (word, ran.err)
