"""Reading stitch files that come from anywhere: bounded in size, memory and time.

dst and exp are read here, column by column. The library's readers go stitch by stitch and are
not trusted: they work in a process of their own, which reads file after file, and is ended and
replaced where a file takes too long or too much memory.
"""

import contextlib
from collections.abc import Iterator
from enum import Enum, auto
from pathlib import Path
from stat import S_ISREG
from typing import TYPE_CHECKING, Final, TypeAlias

from stitchpath.cli.file_bytes import read_bytes
from stitchpath.cli.interrupts import begin_tracker, held_back
from stitchpath.cli.read_worker import EXIT_NO_MEMORY, serve
from stitchpath.cli.terminal import plain
from stitchpath.errors import FormatError, StitchpathError
from stitchpath.machine import FileStitches, StitchFile, read_stitch_file
from stitchpath.machine.decode import MOST_BYTES

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.context import SpawnProcess

READ_SECONDS: Final = 30
"""A file that takes longer is given up."""
READ_BYTES: Final = 2 * 2**30
"""Memory that the reading process may take, where the system can limit it."""
_GIB: Final = 2**30
Answer: TypeAlias = FileStitches | str
"""What was read, or why nothing was."""


class _Trouble(Enum):
    """Why there is no answer."""

    SLOW = auto()
    LARGE = auto()
    BROKEN = auto()


class StitchReader:
    """Reads stitch files one after another; to be closed afterwards."""

    def __init__(self, *, seconds: float = READ_SECONDS, most_memory: int = READ_BYTES) -> None:
        """Begin without a process; one is started by the first file that needs it."""
        self._seconds, self._most_memory = seconds, most_memory
        self._child: tuple[SpawnProcess, Connection] | None = None

    def read(self, path: Path) -> StitchFile:
        """Return what a stitch file says.

        Raises:
            StitchpathError: There is no such file, it cannot be read, or it is no stitch file;
                the text names it.
        """
        data = _plain_bytes(path)
        try:
            return self.read_bytes(data, path.suffix)
        except FormatError as fault:
            raise StitchpathError(f"`{plain(path)}`: {fault}\n{_HINT}") from fault

    def read_bytes(self, data: bytes, suffix: str) -> StitchFile:
        """Return what the bytes of a stitch file say.

        Raises:
            FormatError: They cannot be read, or are no stitch file.
        """
        return read_stitch_file(data, suffix, by_library=self._ask)

    @property
    def process(self) -> "SpawnProcess | None":
        """The reading process, while there is one."""
        return self._child and self._child[0]

    def close(self) -> None:
        """End the reading process, if there is one."""
        if self._child is not None:
            process, pipe = self._child
            self._child = None
            process.kill()
            process.join()
            process.close()
            pipe.close()

    def _ask(self, data: bytes, name: str) -> FileStitches:
        """Let the process read bytes; it is ended where it does not answer as it should."""
        self._child = self._child or self._start()
        try:
            answer = self._answer(self._child[1], (data, name))
        except (OSError, EOFError):
            self._child[0].join()
            answer = (
                _Trouble.LARGE if self._child[0].exitcode == EXIT_NO_MEMORY else _Trouble.BROKEN
            )
        except BaseException:
            self.close()
            raise
        if isinstance(answer, FileStitches):
            return answer
        if isinstance(answer, str):
            raise FormatError(answer)
        self.close()
        raise FormatError(
            {
                _Trouble.SLOW: f"reading it takes longer than {self._seconds:g} s",
                _Trouble.LARGE: f"reading it takes more than {self._most_memory / _GIB:g} GiB",
                _Trouble.BROKEN: "its reader broke down",
            }[answer]
        )

    def _answer(self, pipe: "Connection", question: tuple[bytes, str]) -> "Answer | _Trouble":
        pipe.send(question)
        if not pipe.poll(self._seconds):
            return _Trouble.SLOW
        answer: Answer = pipe.recv()
        return answer

    def _start(self) -> "tuple[SpawnProcess, Connection]":
        from multiprocessing import get_context  # noqa: PLC0415

        context = get_context("spawn")
        pipe, far = context.Pipe()
        process = context.Process(
            target=serve, args=(far, self._most_memory, self._seconds), daemon=True
        )
        begin_tracker()
        with held_back():
            process.start()
        far.close()
        return process, pipe


@contextlib.contextmanager
def stitch_reader() -> Iterator[StitchReader]:
    """Give a reader, and end its process afterwards."""
    reader = StitchReader()
    try:
        yield reader
    finally:
        reader.close()


def _plain_bytes(path: Path) -> bytes:
    """Return a file's bytes; a pipe or a device might never end."""
    with contextlib.suppress(
        OSError, ValueError
    ):  # what cannot be looked at is told by reading
        mode = path.stat().st_mode
        if not S_ISREG(mode) and not path.is_dir():
            raise StitchpathError(
                f"`{plain(path)}` is not a plain file\nhelp: copy what it holds into one"
            )
    return read_bytes(path, most=MOST_BYTES + 1)


_HINT: Final = "help: it may be cut short, or of another format than its name says"
