"""Work of several processes side by side, where there is enough of it.

What is made is the same, in the same order, whether one process works or several. Where the
system can split a process in two, the others begin with everything that is in memory here, and
only what they make is carried back; whoever is free, this one too, takes the thing that is
next. Elsewhere others begin anew, and of n processes each has every n-th thing carried to it.
"""

import os
import signal
import struct
import sys
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
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
_NUMBER: Final = struct.Struct("i")
_MOST_NUMBERS: Final = 1024
"""So many fit into a pipe, however little of it the system gives (4 KB, see pipe(7))."""
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
    """Return what is made of each thing, by so many processes."""
    others: list[_Other] = []
    if way == "spawn":
        begin_tracker()
    try:
        with undisturbed(), masked():  # the others are not to hear Ctrl-C even as they start
            taken = _taken(len(things), shares, way)
            for share in taken[1:]:  # those begun are ended whatever happens to the next
                others.append(_begun(make, things, share, way))  # noqa: PERF401
        with doing_first(lambda: _end(others)):
            found = _made(make, things, _told(taken[0], len(things), shares, on_made))
            for _, pipe in others:
                found |= pipe.recv()
    except (EOFError, OSError) as fault:
        raise StitchpathError(_ENDED) from fault
    finally:
        _end(others)
    # what failed fails again here, where its fault can be told
    return [
        made[0] if (made := found[number]) else make(thing)
        for number, thing in enumerate(things)
    ]


def _taken(count: int, shares: int, way: _Way) -> list[Iterable[int]]:
    """Return for each process the numbers of the things that it takes."""
    if way == "spawn":
        return [range(share, count, shares) for share in range(shares)]
    numbers, far = os.pipe()
    together = -(-count // _MOST_NUMBERS)
    os.write(far, b"".join(map(_NUMBER.pack, range(0, count, together))))
    os.close(far)
    return [_next_of(numbers, together, count) for _ in range(shares)]


def _next_of(numbers: int, together: int, count: int) -> Iterator[int]:
    """Yield the numbers that are next, of which each process reads its own from a pipe."""
    with os.fdopen(numbers, "rb", buffering=0) as pipe:
        while read := pipe.read(_NUMBER.size):
            (first,) = _NUMBER.unpack(read)
            yield from range(first, min(first + together, count))


def _told(
    numbers: Iterable[int], count: int, shares: int, on_made: Callable[[int], None]
) -> Iterator[int]:
    """Yield numbers, and tell how many things are made: others keep step with this process."""
    told = 0
    for number in numbers:
        yield number
        on_made(min(number + shares, count) - told)
        told = min(number + shares, count)
    if told < count:
        on_made(count - told)


def _made(
    make: Callable[[_Thing], _Made],
    things: Sequence[_Thing] | dict[int, _Thing],
    numbers: Iterable[int],
    goes_on: Callable[[], bool] = lambda: True,
) -> dict[int, tuple[_Made] | None]:
    """Return what is made of some things, None where that fails, as long as it goes on."""
    made: dict[int, tuple[_Made] | None] = {}
    for number in numbers:
        if not goes_on():
            break
        try:
            made[number] = (make(things[number]),)
        except Exception:  # noqa: BLE001 - it is made again where its fault can be told
            made[number] = None
    return made


def _begun(
    make: Callable[[_Thing], _Made], things: Sequence[_Thing], numbers: Iterable[int], way: _Way
) -> _Other:
    from multiprocessing import get_context  # noqa: PLC0415 - slow to import, and seldom needed

    context = get_context(way)
    pipe, far = context.Pipe(duplex=False)
    own = things if way == "fork" else {number: things[number] for number in numbers}
    # every context has it, though the type of all of them does not say so
    begin: type[BaseProcess] = context.Process  # type: ignore[attr-defined]
    process = begin(target=_answer, args=(make, own, numbers, far), daemon=True)
    process.start()
    far.close()
    return process, pipe


def _answer(
    make: Callable[[_Thing], _Made],
    things: Sequence[_Thing] | dict[int, _Thing],
    numbers: Iterable[int],
    pipe: "Connection",
) -> None:
    """Make a share and send it: what another process does, as long as there is this one."""
    from multiprocessing import parent_process  # noqa: PLC0415
    from multiprocessing.reduction import ForkingPickler  # noqa: PLC0415

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for whoever waits for the answer
    waiting = parent_process()
    made = _made(make, things, numbers, lambda: waiting is not None and waiting.is_alive())
    with suppress(OSError, MemoryError):
        pipe.send_bytes(ForkingPickler.dumps(made, _KEEPS_READ_ONLY))


def _end(others: list[_Other]) -> None:
    """End processes, whatever they are at, and close their pipes."""
    for process, pipe in others:
        process.kill()
        process.join()
        pipe.close()
