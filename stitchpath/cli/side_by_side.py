"""Work of several processes side by side, where there is enough of it.

What is made is the same, in the same order, whether one process works or several. Each of n
processes takes every n-th thing, this one too. Where the system can split a process in two, the
others begin with everything that is in memory here, and only what they make is carried back;
elsewhere they begin anew, and their things are carried to them.
"""

import os
import signal
import sys
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from time import perf_counter
from typing import TYPE_CHECKING, Final, Literal, TypeAlias, TypeVar

from stitchpath.cli.interrupts import begin_tracker, doing_first, masked, undisturbed
from stitchpath.errors import StitchpathError

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.process import BaseProcess

_Thing = TypeVar("_Thing")
_Made = TypeVar("_Made")
_Way: TypeAlias = Literal["fork", "spawn"]
_Other: TypeAlias = "tuple[BaseProcess, Connection]"

WORTH_SECONDS: Final[dict[_Way, float]] = {"fork": 0.1, "spawn": 4.0}
"""How much work must be left for others to come in. To split a process takes hundredths of a
second, to begin one anew about one second, with all that it has to import."""
MOST_PROCESSES: Final = 8
"""Each takes memory for what it makes, beside what all have in common."""
_KEEPS_READ_ONLY: Final = 5
"""From this protocol of pickling on, an array that cannot be written to comes back as one."""
_ENDED: Final = """\
a process that shared in the work was ended from outside; nothing is half written
help: try again; where memory is short, end other programs first"""


def side_by_side(
    make: Callable[[_Thing], _Made],
    things: Sequence[_Thing],
    *,
    worth_seconds: float | None = None,
    on_made: Callable[[int], None] = lambda _: None,
) -> list[_Made]:
    """Return what is made of each thing, in order.

    The first two are made alone, since the first may have something to import; then others come
    in if what is left would take long enough. Never are there more processes than cores.

    Args:
        make: Pure. What it raises comes through. Where processes begin anew it must be known by
            a name in its module, or be a `functools.partial` of such.
        things: What something is made of.
        worth_seconds: How much work must be left; `WORTH_SECONDS` for None.
        on_made: Told in this process, after each thing that it makes, how many are made by
            then: the others are taken to keep step with it.

    Raises:
        StitchpathError: A process was ended from outside.
    """
    way, most = _way(), _most_processes()
    worth = WORTH_SECONDS[way] if worth_seconds is None else worth_seconds
    made: list[_Made] = []
    for thing in things:
        begun = perf_counter()
        made.append(make(thing))
        on_made(1)
        left = len(things) - len(made)
        is_worth_it = worth <= left * (perf_counter() - begun)
        if is_worth_it and min(len(made), left, most) > 1:
            break
    rest = things[len(made) :]
    if not rest:
        return made
    return [*made, *_shared(make, rest, min(most, len(rest)), way, on_made)]


def _way() -> _Way:
    """Return how a process is begun: split only where no thread can hold a lock meanwhile."""
    is_safe = sys.platform == "linux" and threading.active_count() == 1
    return "fork" if is_safe else "spawn"


def _most_processes() -> int:
    own = getattr(os, "sched_getaffinity", None)
    return min(MOST_PROCESSES, len(own(0)) if own else os.cpu_count() or 1)


def _shared(
    make: Callable[[_Thing], _Made],
    things: Sequence[_Thing],
    shares: int,
    way: _Way,
    on_made: Callable[[int], None],
) -> list[_Made]:
    """Return what is made of each thing, by a process for every share."""
    steps = iter(things[at : at + shares] for at in range(0, len(things), shares))

    def make_own(thing: _Thing) -> _Made:
        made = make(thing)
        on_made(len(next(steps)))
        return made

    others: list[_Other] = []
    if way == "spawn":
        begin_tracker()
    try:
        with undisturbed(), masked():  # the others are not to hear Ctrl-C even as they start
            for share in range(1, shares):  # those begun are ended whatever happens to the next
                others.append(_begun(make, things[share::shares], way))  # noqa: PERF401
        with doing_first(lambda: _end(others)):
            answers = [_made(make_own, things[::shares]), *(pipe.recv() for _, pipe in others)]
    except (EOFError, OSError) as fault:
        raise StitchpathError(_ENDED) from fault
    finally:
        _end(others)
    found = [answers[number % shares][number // shares] for number in range(len(things))]
    # what failed fails again here, where its fault can be told
    return [each[0] if each else make(thing) for each, thing in zip(found, things, strict=True)]


def _made(
    make: Callable[[_Thing], _Made],
    things: Sequence[_Thing],
    goes_on: Callable[[], bool] = lambda: True,
) -> list[tuple[_Made] | None]:
    """Return what is made of each thing, None where that fails, as long as it goes on."""
    made: list[tuple[_Made] | None] = []
    for thing in things:
        if not goes_on():
            break
        try:
            made.append((make(thing),))
        except Exception:  # noqa: BLE001 - it is made again where its fault can be told
            made.append(None)
    return made


def _begun(make: Callable[[_Thing], _Made], things: Sequence[_Thing], way: _Way) -> _Other:
    from multiprocessing import get_context  # noqa: PLC0415 - slow to import, and seldom needed

    context = get_context(way)
    pipe, far = context.Pipe(duplex=False)
    # every context has it, though the type of all of them does not say so
    begin: type[BaseProcess] = context.Process  # type: ignore[attr-defined]
    process = begin(target=_answer, args=(make, things, far), daemon=True)
    process.start()
    far.close()
    return process, pipe


def _answer(
    make: Callable[[_Thing], _Made], things: Sequence[_Thing], pipe: "Connection"
) -> None:
    """Make a share and send it: what another process does, as long as there is this one."""
    from multiprocessing import parent_process  # noqa: PLC0415
    from multiprocessing.reduction import ForkingPickler  # noqa: PLC0415

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for whoever waits for the answer
    waiting = parent_process()
    made = _made(make, things, lambda: waiting is not None and waiting.is_alive())
    with suppress(OSError, MemoryError):
        pipe.send_bytes(ForkingPickler.dumps(made, _KEEPS_READ_ONLY))


def _end(others: list[_Other]) -> None:
    """End processes, whatever they are at, and close their pipes."""
    for process, pipe in others:
        process.kill()
        process.join()
        pipe.close()
