"""Memory that nothing uses any more goes back to the system."""

import ctypes
from contextlib import suppress


def give_back_memory() -> None:
    """Give back what the C library keeps of freed memory; do nothing where it cannot.

    A vast quilt's lines are parted into faces in hundreds of megabytes, freed again; a few
    small things that stay among them would keep all of it until the end. See malloc_trim(3) of
    glibc; other C libraries have no such call.
    """
    with suppress(OSError, AttributeError, TypeError):
        ctypes.CDLL(None).malloc_trim(0)
