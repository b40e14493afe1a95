"""The reading process: ended and replaced where a file takes too long or too much."""

import re
import resource
import signal
import sys
from concurrent.futures import ThreadPoolExecutor
from multiprocessing import Pipe
from multiprocessing.context import SpawnProcess
from pathlib import Path

import pytest

from stitchpath.cli.read_worker import serve
from stitchpath.cli.reading import StitchReader
from stitchpath.errors import StitchpathError
from stitchpath.machine import FileStitches
from tests.support.kinds_of_files import file_of_kind


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Give a folder with a good file of the library's, and one with many stitches."""
    (tmp_path / "good.jef").write_bytes(file_of_kind("jef"))
    many = b"#PEC0001" + bytes(48) + b"\x00" + bytes(471) + b"\x05\x05" * 2_000_000
    (tmp_path / "many.pec").write_bytes(many)
    return tmp_path


def test_a_file_that_takes_too_long_is_given_up(folder: Path) -> None:
    reader = StitchReader(seconds=0.01)
    with pytest.raises(
        StitchpathError, match=r"many\.pec`: reading it takes longer than 0.01 s"
    ):
        reader.read(folder / "many.pec")
    assert reader.process is None


def test_a_file_that_takes_too_much_memory_is_given_up_and_the_next_is_read(
    folder: Path,
) -> None:
    reader = StitchReader(most_memory=350 * 2**20)
    with pytest.raises(StitchpathError, match=r"many\.pec`: reading it takes more than"):
        reader.read(folder / "many.pec")
    assert reader.process is None
    assert reader.read(folder / "good.jef").format == "jef"
    reader.close()


def _answers(*questions: tuple[bytes, str]) -> list[object]:
    """Serve questions in a thread of this process, without its limits."""
    near, far = Pipe()
    with ThreadPoolExecutor(1) as pool:
        done = pool.submit(serve, far, 2**50, 10.0)
        answers: list[object] = []
        for question in questions:
            near.send(question)
            answers.append(near.recv())
        near.close()
        done.result()
    return answers


def test_the_worker_answers_with_stitches_or_a_reason(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def refuse(*_: object) -> None:
        raise ValueError("signals are for the main thread, limits for a process of its own")

    monkeypatch.setattr(signal, "signal", lambda *_: None)
    monkeypatch.setattr(resource, "setrlimit", refuse)  # as on a system that cannot
    read, why = _answers((file_of_kind("jef"), "jef"), (b"", "vp3"))
    assert isinstance(read, FileStitches)
    assert isinstance(why, str)
    assert why.startswith("the bytes cannot be read as a vp3 file")


@pytest.mark.skipif(sys.platform != "linux", reason="looks into /proc")
def test_the_worker_never_answers_ctrl_c(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """While it starts it would print a traceback; a blocked signal stays so (execve(2))."""
    real, masks = SpawnProcess.start, []

    def start(process: SpawnProcess) -> None:
        real(process)
        status = Path(f"/proc/{process.pid}/status").read_text(encoding="ascii")
        masks.append(re.findall(r"^SigBlk:\s*(\w+)$", status, re.MULTILINE))

    monkeypatch.setattr(SpawnProcess, "start", start)
    before = signal.getsignal(signal.SIGINT)
    reader = StitchReader()
    reader.read(folder / "good.jef")
    reader.close()
    ((mask,),) = masks
    assert int(mask, 16) & 1 << signal.SIGINT - 1
    assert signal.getsignal(signal.SIGINT) == before


def test_a_reader_that_dies_is_replaced(folder: Path) -> None:
    reader = StitchReader()
    reader.read(folder / "good.jef")
    assert reader.process is not None
    reader.process.kill()
    reader.process.join()
    with pytest.raises(StitchpathError, match=r"good\.jef`: its reader broke down"):
        reader.read(folder / "good.jef")
    assert reader.read(folder / "good.jef").format == "jef"
    process = reader.process
    reader.close()
    with pytest.raises(ValueError, match="closed"):
        process.is_alive()
