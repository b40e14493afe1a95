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
def unheard() -> Iterator[None]:
    """Let processes that are started inside ignore Ctrl-C from their first moment on.

    One that answers it by itself would print a traceback while it still starts. It is for a
    moment only: this process does not hear of it either.
    """
    with _answered_by(signal.SIG_IGN):
        yield


def _raise(_signal: int, _frame: FrameType | None) -> NoReturn:
    raise Stopped


@contextlib.contextmanager
def _answered_by(handler: Handler | signal.Handlers) -> Iterator[None]:
    try:
        before = signal.signal(signal.SIGINT, handler)
    except ValueError:  # not the main thread, which alone hears of it
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
