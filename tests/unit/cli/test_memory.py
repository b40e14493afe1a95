"""Freed memory goes back to the system."""

import ctypes
import subprocess
import sys
from collections.abc import Callable
from typing import Final

import pytest

from stitchpath.cli.memory import give_back_large_memory

_CODE: Final = """
import numpy as np
from pathlib import Path
from stitchpath.cli.memory import give_back_large_memory

def resident():
    rows = Path("/proc/self/status").read_text().splitlines()
    return next(int(row.split()[1]) for row in rows if row.startswith("VmRSS:")) / 1024

if {told}:
    give_back_large_memory()
np.ones(31 * 2**17)  # 31 MB, freed at once: the C library keeps smaller ones from now on
before = resident()
large = [np.ones(30 * 2**17) for _ in range(3)]
small = [bytes(1000) for _ in range(1000)]
del large
print(resident() - before)
"""


def _kept_megabytes(*, told: bool) -> float:
    code = _CODE.format(told=told)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    return float(done.stdout)


@pytest.mark.skipif(sys.platform != "linux", reason="others have no such call")
def test_memory_of_large_arrays_is_given_back_when_they_are_freed() -> None:
    """90 MB are freed below what is still in use; see mallopt(3), M_MMAP_THRESHOLD."""
    assert _kept_megabytes(told=True) < 10


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
    give_back_large_memory()
