"""Memory goes back to the system, where the C library can give it."""

import ctypes
import platform
import re
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from stitchpath.cli.memory import give_back_memory

MB = 1_000_000


def _held() -> float:
    """Return how much of this process is in memory, bytes. Source: proc_pid_status(5)."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    found = re.search(r"VmRSS:\s*(\d+) kB", status)
    assert found
    return int(found[1]) * 1024


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="only glibc keeps what is freed")
def test_what_is_freed_goes_back_though_something_small_lies_above_it() -> None:
    """2,000 arrays of 50 kB, each too small for a mapping of its own: mallopt(3), 128 kB."""
    many = [np.ones(6_250) for _ in range(2_000)]
    above = [bytes(1_000) for _ in range(2_000)]
    full = _held()
    del many
    give_back_memory()
    assert _held() < full - 80 * MB
    assert len(above) == 2_000


def _no_library(_name: None) -> ctypes.CDLL:
    raise OSError("no such library")


def _no_name(_name: None) -> ctypes.CDLL:
    raise TypeError("a library is found by its name")


def _another_library(_name: None) -> object:
    return object()


@pytest.mark.parametrize("find", [_no_library, _no_name, _another_library])
def test_where_it_cannot_be_given_back_nothing_happens(
    find: Callable[[None], object], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ctypes, "CDLL", find)
    give_back_memory()
