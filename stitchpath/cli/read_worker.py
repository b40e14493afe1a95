"""The process that the library's readers work in."""

import contextlib
import os
import signal
from math import ceil
from multiprocessing.connection import Connection
from typing import Final

from stitchpath.errors import FormatError

EXIT_NO_MEMORY: Final = 12
"""How this process ends where memory runs out."""


def serve(pipe: Connection, most_memory: int, seconds: float) -> None:
    """Answer each pair of bytes and format's name until the other end is closed.

    Args:
        pipe: Where pairs come from and answers go to: stitches, or why there are none.
        most_memory: Bytes that this process may take.
        seconds: How long one file may take, in case that nobody is left to end this process.
    """
    from stitchpath.machine.library_read import decode_by_library  # noqa: PLC0415 - only here

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for whoever waits for the answer
    _limit_memory(most_memory)
    with contextlib.suppress(EOFError, OSError):
        while True:
            data, name = pipe.recv()
            _limit_time(seconds)
            try:
                pipe.send(decode_by_library(data, name=name))
            except FormatError as fault:
                pipe.send(str(fault))
            except MemoryError:
                os._exit(EXIT_NO_MEMORY)  # there may be too little left for anything else


def _limit_memory(most: int) -> None:
    with contextlib.suppress(ImportError, OSError, ValueError):  # not on every system
        import resource  # noqa: PLC0415

        resource.setrlimit(
            resource.RLIMIT_AS, (most, resource.getrlimit(resource.RLIMIT_AS)[1])
        )


def _limit_time(seconds: float) -> None:
    with contextlib.suppress(ImportError, OSError, ValueError):
        import resource  # noqa: PLC0415

        used = resource.getrusage(resource.RUSAGE_SELF)
        most = ceil(used.ru_utime + used.ru_stime + 2 * seconds)
        resource.setrlimit(
            resource.RLIMIT_CPU, (most, resource.getrlimit(resource.RLIMIT_CPU)[1])
        )
