"""Commands in processes of their own, as a shell calls them: their time, and their memory."""

import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path
from time import sleep
from typing import Final

_KILO: Final = 1024
_EVERY_SECONDS: Final = 0.02


def peak_bytes(command: Sequence[str], env: Mapping[str, str]) -> int:
    """Run a command; return the most memory that it and its children took at a time.

    Pages that several of them share count once (Pss, see proc_pid_smaps(5)). A short peak can
    be missed between two looks, so the most that the first process ever had (VmHWM, see
    proc_pid_status(5)) counts as well.
    """
    looked = [0]
    process = subprocess.Popen(
        command, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    while process.poll() is None:
        looked.append(max(_together(process.pid), _value(process.pid, "status", "VmHWM:")))
        sleep(_EVERY_SECONDS)
    assert process.returncode == 0, command
    return max(looked)


def _together(pid: int) -> int:
    """Return the bytes of a process and of those it has begun."""
    own = _value(pid, "smaps_rollup", "Pss:")
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="ascii").split()
    except OSError:
        return own
    return own + sum(_together(int(child)) for child in children)


def _value(pid: int, name: str, word: str) -> int:
    """Return the bytes that stand after a word in one of a process's files; 0 where none do."""
    try:
        lines = Path(f"/proc/{pid}/{name}").read_text(encoding="utf-8").splitlines()
    except OSError:  # it has ended
        return 0
    return sum(int(line.split()[1]) * _KILO for line in lines if line.startswith(word))
