"""What a command raises becomes a message and an exit code."""

import io
import os
import signal
import sys
import threading
from pathlib import Path

import pytest

from stitchpath.cli import call, files, interrupts, main, make
from stitchpath.cli.folder import write_file
from stitchpath.cli.interrupts import Stopped
from stitchpath.cli.options import key_limits
from stitchpath.cli.terminal import ReaderGoneError, drop, say, tell
from stitchpath.cli.usage import reworded
from stitchpath.errors import FormatError, OutputError
from tests.support.command_line import PLAIN, Shell


@pytest.mark.parametrize(
    ("raised", "code", "said"),
    [
        (FormatError("too far out"), 1, "error: too far out\n"),
        (
            OutputError("no \x07 room\nhelp: make some"),
            1,
            "error: no \\x07 room\nhelp: make some\n",
        ),
        (ReaderGoneError(), 141, ""),
        (Stopped(), 130, "stopped; nothing is half written\n"),
        (
            OSError(5, "Input/output error"),
            1,
            "error: the system refuses: Input/output error\n",
        ),
    ],
    ids=lambda case: type(case).__name__,
)
def test_what_is_raised_is_said(
    raised: BaseException, code: int, said: str, shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    def run(_words: list[str]) -> int:
        raise raised

    monkeypatch.setattr(call, "run", run)
    ran = shell.run("stitchpath check rug.toml")
    assert (ran.code, ran.out, ran.err) == (code, "", said)


def test_bug_of_ours_shows_its_traceback_and_ends_in_70(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    def run(_words: list[str]) -> int:
        raise ValueError("an edge case")

    monkeypatch.setattr(call, "run", run)
    ran = shell.run("stitchpath check rug.toml")
    assert ran.code == 70
    first, *_, last_but_one, last = ran.err.splitlines()
    assert first == "Traceback (most recent call last):"
    assert last_but_one == "ValueError: an edge case"
    assert last == "this is a bug in stitchpath; nothing is half written"


def test_exit_code_of_a_command_is_handed_on(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(call, "run", lambda _words: 1)
    assert shell.run("stitchpath check rug.toml").code == 1


@pytest.mark.parametrize("is_terminal", [True, False])
def test_stop_at_once_says_so_and_leaves(
    is_terminal: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    written: list[tuple[int, bytes]] = []
    monkeypatch.setattr(os, "write", lambda handle, text: written.append((handle, text)))
    monkeypatch.setattr(os, "_exit", sys.exit)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: is_terminal)
    with pytest.raises(SystemExit) as left:
        interrupts.stop_at_once(signal.SIGINT, None)
    assert left.value.code == 130
    shows_cursor = b"\r\x1b[K\x1b[?25h" * is_terminal
    assert written == [(2, shows_cursor + b"stopped; nothing is half written\n")]


def test_limits_of_a_key_that_is_none_are_a_bug() -> None:
    with pytest.raises(ValueError, match="no key of the project file"):
        key_limits("pocket", "rise")


def test_complaint_that_is_not_known_stays_as_it_is() -> None:
    refused = reworded("Something New happened.", command="stitchpath make", known=())
    assert str(refused) == "something New happened\nhelp: see `stitchpath make --help`"


def test_dropping_what_is_no_stream_does_nothing() -> None:
    class Closed:
        def fileno(self) -> int:
            raise ValueError("closed")

    drop(Closed())


def _stream_to(path: str) -> io.TextIOWrapper:
    return io.TextIOWrapper(Path(path).open("wb"), encoding="utf-8")


def test_data_that_cannot_be_written_is_an_output_error(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    stream = _stream_to("/dev/full")
    monkeypatch.setattr(sys, "stdout", stream)
    with pytest.raises(OutputError, match="the output cannot be written: No space left"):
        say("data")
    stream.close()  # what is left of it goes nowhere


def test_data_that_nobody_reads_is_told_from_that(monkeypatch: pytest.MonkeyPatch) -> None:
    read_end, write_end = os.pipe()
    os.close(read_end)
    stream = os.fdopen(write_end, "w", encoding="utf-8")
    monkeypatch.setattr(sys, "stdout", stream)
    with pytest.raises(ReaderGoneError):
        say("data")
    stream.close()


def test_words_that_cannot_be_written_are_let_go(monkeypatch: pytest.MonkeyPatch) -> None:
    stream = _stream_to("/dev/full")
    monkeypatch.setattr(sys, "stderr", stream)
    tell("words")
    stream.close()


def test_files_can_be_written_from_any_thread(tmp_path: Path) -> None:
    writer = threading.Thread(target=write_file, args=(tmp_path / "a.svg", b"<svg/>"))
    writer.start()
    writer.join()
    assert (tmp_path / "a.svg").read_bytes() == b"<svg/>"


def test_bar_is_shown_on_a_terminal(shell: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(make, "SLOW_HOOPINGS", 2)
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    ran = shell.run("stitchpath make rug.toml --out rug", PLAIN | {"TERM": "xterm"})
    assert ran.code == 0
    assert "hoopings" in ran.err
    assert "100%" in ran.err


def test_bar_is_shown_while_many_hoopings_are_put_in_order(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    terminal = PLAIN | {"TERM": "xterm"}
    assert "in order" not in shell.run("stitchpath check rug.toml", terminal).err
    monkeypatch.setattr(files, "SLOW_HOOPINGS", 2)
    assert "hoopings in order" in shell.run("stitchpath check rug.toml", terminal).err


def test_the_door_leads_to_the_commands(monkeypatch: pytest.MonkeyPatch) -> None:
    before = signal.getsignal(signal.SIGINT)
    monkeypatch.setattr(sys, "argv", ["stitchpath", "--version"])
    with pytest.raises(SystemExit) as left:
        main()
    signal.signal(signal.SIGINT, before)
    assert left.value.code == 0
