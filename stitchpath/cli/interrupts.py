"""Ctrl-C: at once where nothing has been written, in good order where something has.

At once means without an exception: libraries written in C turn an exception that comes at a bad
moment into one of their own, print it, or lose it.
"""

import contextlib
import os
import signal
import sys
from collections.abc import Callable, Iterator
from types import FrameType
from typing import Final, NoReturn, TypeAlias

EXIT_STOPPED: Final = 130
"""What a shell shows for a command stopped with Ctrl-C."""
STOPPED: Final = "stopped; nothing is half written"
_FRESH_LINE: Final = "\r\x1b[K\x1b[?25h"
"""Clears a progress bar's line and shows the cursor that it hid."""

Handler: TypeAlias = Callable[[int, FrameType | None], object]


class Stopped(BaseException):
    """Ctrl-C, as something that no handler of KeyboardInterrupt answers in other words."""


def stop_at_once(_signal: int, _frame: FrameType | None) -> NoReturn:
    """Say so and leave; a signal handler for as long as nothing is being written."""
    is_terminal = sys.stderr is not None and sys.stderr.isatty()
    with contextlib.suppress(OSError):
        os.write(2, f"{_FRESH_LINE if is_terminal else ''}{STOPPED}\n".encode())
    os._exit(EXIT_STOPPED)


@contextlib.contextmanager
def undone_when_stopped() -> Iterator[None]:
    """Let Ctrl-C raise `Stopped` inside, so that what has been begun can be undone."""
    with _answered_by(_raise):
        yield


@contextlib.contextmanager
def undisturbed() -> Iterator[None]:
    """Put Ctrl-C off until the end, for what is short and better not left undone."""
    asked: list[int] = []
    with _answered_by(lambda number, _frame: asked.append(number)):
        yield
    if asked:
        raise Stopped


@contextlib.contextmanager
def doing_first(act: Callable[[], object]) -> Iterator[None]:
    """Answer Ctrl-C inside as outside, but do something first."""
    before = signal.getsignal(signal.SIGINT)

    def act_and_answer(number: int, frame: FrameType | None) -> None:
        act()
        if callable(before):
            before(number, frame)

    with _answered_by(act_and_answer):
        yield


@contextlib.contextmanager
def held_back() -> Iterator[None]:
    """Put Ctrl-C off until the end, for this process and for good in those started inside.

    A process that answers it by itself would print a traceback while it still starts, and so
    would one that is left alone then.
    """
    asked: list[int] = []
    with _answered_by(lambda number, _frame: asked.append(number)), masked():
        yield
    if asked:
        signal.raise_signal(signal.SIGINT)


@contextlib.contextmanager
def masked() -> Iterator[None]:
    """Block Ctrl-C in this thread: started processes inherit that, but not a handler.

    Where they begin anew, `begin_tracker` comes before.
    """
    if not hasattr(signal, "pthread_sigmask"):  # not on every system
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def begin_tracker() -> None:
    """Start the process that looks after those that begin anew: it would end the mask."""
    if sys.platform != "win32":
        from multiprocessing.resource_tracker import ensure_running  # noqa: PLC0415

        ensure_running()


def _raise(_signal: int, _frame: FrameType | None) -> NoReturn:
    raise Stopped


@contextlib.contextmanager
def _answered_by(handler: Handler) -> Iterator[None]:
    try:
        before = signal.signal(signal.SIGINT, handler)
    except ValueError:  # not the main thread, which alone hears of it
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
