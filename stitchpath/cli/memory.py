"""Memory that nothing uses any more goes back to the system."""

import ctypes
from contextlib import suppress
from typing import Final

_MMAP_THRESHOLD: Final = -3
"""The number of that parameter. Source: malloc.h of the GNU C library."""
_LARGE_BYTES: Final = 4 * 2**20
"""Columns of half a million numbers. Smaller ones are asked for too often to be given back each
time; a limit above those of a vast quilt would not do anything."""


def give_back_large_memory() -> None:
    """Have each large array's memory given back as soon as it is freed.

    By itself the GNU C library raises its limit to 32 MB with what it is asked for, and keeps
    what is freed below for itself: half of all that a vast quilt took. See M_MMAP_THRESHOLD in
    mallopt(3). Other C libraries have no such call; there nothing is done.
    """
    with suppress(OSError, AttributeError, TypeError):
        ctypes.CDLL(None).mallopt(_MMAP_THRESHOLD, _LARGE_BYTES)
