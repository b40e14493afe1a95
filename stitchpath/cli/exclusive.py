"""What only the operating system can do: two folders change places at once; locks that die.

Neither is there on every system. Where one is missing the caller goes on without: a change of
places then takes two steps, and two runs at once are not told from one another.
"""

import contextlib
import ctypes
import errno
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Final

_AT_FDCWD: Final = -100
_RENAME_EXCHANGE: Final = 2
"""Source of both: the manual page renameat2(2) of Linux and its header fcntl.h."""
_NOT_HERE: Final = frozenset({errno.ENOSYS, errno.EINVAL, errno.ENOTSUP})


def exchange(one: Path, other: Path) -> bool:
    """Let two folders change places in one step; return whether this system can do that.

    Raises:
        OSError: It can, and it did not work.
    """
    if sys.platform != "linux":
        return False
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if rename is None:  # an old C library
        return False
    done = rename(
        _AT_FDCWD,
        os.fsencode(one),
        _AT_FDCWD,
        os.fsencode(other),
        ctypes.c_uint(_RENAME_EXCHANGE),
    )
    if done == 0:
        return True
    code = ctypes.get_errno()
    if code in _NOT_HERE:  # an old system, or a disk that cannot
        return False
    raise OSError(code, os.strerror(code), str(other))


@contextlib.contextmanager
def locked(path: Path, *, wait: bool) -> Iterator[bool]:
    """Hold a lock on a file or folder, and say whether it is held.

    It ends with this process, however that ends, so none is ever stale.

    Args:
        path: What to lock; it exists.
        wait: Whether to wait for another run that holds it.
    """
    try:
        import fcntl  # noqa: PLC0415 - not on every system
    except ImportError:
        yield True
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        held = True
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))
        except BlockingIOError:
            held = False
        except OSError:  # a disk without locks
            held = True
        yield held
    finally:
        os.close(handle)
