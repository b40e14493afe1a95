"""A hidden place beside what is to be written, so that output appears whole or not at all.

The place is a folder `.stitchpath-NNNNNNNN-XXXXXXXX`, where N tells its target. In it:

    new     what is being written
    old     what stood there before, while the two change places

A folder changes places with `new` in one step where the system can do that; `old` is for those
where it takes two. A run that was killed leaves its place behind; the next run to the same
target settles it: while both `old` and `new` are there the old comes back, else the change was
complete or had not begun. A place is known by its name alone, which it has from the first
moment on, so that nothing is left that no run settles. A run holds a lock on its place, which
ends with it: by that another one tells a place in use from one left behind.
"""

import contextlib
import errno
import hashlib
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from stitchpath.cli.exclusive import exchange, locked
from stitchpath.cli.interrupts import undisturbed, undone_when_stopped
from stitchpath.errors import OutputError

_PREFIX: Final = ".stitchpath-"
_REASONS: Final = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the disk quota is used up",
    errno.EFBIG: "a file is larger than the disk or the system allows",
    errno.EACCES: "permission is missing",
    errno.EPERM: "permission is missing",
    errno.EROFS: "the disk is read-only",
    errno.EEXIST: "a file stands where a folder has to be",
    errno.ENOTDIR: "a file stands where a folder has to be",
    errno.ENOENT: "its disk or the folder it is in is gone",
    errno.ENODEV: "its disk is gone",
    errno.ENXIO: "its disk is gone",
    errno.EIO: "its disk cannot be written to, or is gone",
    errno.ESTALE: "its disk is gone",
}


@contextlib.contextmanager
def staging(target: Path) -> Iterator[Path]:
    """Yield an empty hidden folder beside the target; it is gone again afterwards.

    Folders above the target are made, and unmade where nothing came of it. Whatever happens
    inside, even an interruption, the target is whole afterwards: the old or the new.

    Args:
        target: An absolute path; the last part may be missing.

    Raises:
        OutputError: Something could not be written; or an earlier run left a state behind that
            only the maker can settle.
    """
    try:
        with (
            undone_when_stopped(),
            _parents(target.parent),
            contextlib.ExitStack() as until_the_end,
        ):
            place = _take_place(target, until_the_end)
            try:
                yield place
            finally:
                with undisturbed():
                    _settle(place, target)
    except OSError as fault:
        reason = _REASONS.get(fault.errno or 0, fault.strerror or str(fault))
        raise OutputError(
            f"`{target}` cannot be written: {reason}\nnothing was changed"
        ) from fault


def swap_in(place: Path, target: Path) -> None:
    """Put `new` where the target stands, and what stood there into `old`."""
    with undisturbed():
        if os.path.lexists(target) and not exchange(place / "new", target):
            target.rename(place / "old")
        if not os.path.lexists(target):
            (place / "new").rename(target)
        sync_folder(target.parent)


def write_synced(path: Path, data: bytes) -> None:
    """Write a new file through to the disk."""
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def sync_folder(folder: Path) -> None:
    """Write a folder's list of names through to the disk, where the system can do that."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


@contextlib.contextmanager
def _parents(folder: Path) -> Iterator[None]:
    missing = [at for at in (folder, *folder.parents) if not os.path.lexists(at)]
    folder.mkdir(parents=True, exist_ok=True)
    try:
        yield
    finally:
        for made in missing:  # innermost first; one that holds something stays
            with contextlib.suppress(OSError):
                made.rmdir()


def _take_place(target: Path, until_the_end: contextlib.ExitStack) -> Path:
    """Settle what earlier runs left, then make a place and lock it."""
    with locked(target.parent, wait=True):
        _settle_leftovers(target)
        place = Path(tempfile.mkdtemp(prefix=_prefix(target), dir=target.parent))
        try:
            until_the_end.enter_context(locked(place, wait=False))
        except BaseException:
            _remove(place)
            raise
        return place


def _settle_leftovers(target: Path) -> None:
    for place in sorted(target.parent.glob(f"{_prefix(target)}*")):
        with contextlib.suppress(OSError), locked(place, wait=False) as is_left:
            if not is_left:
                raise OutputError(
                    f"another run is writing to `{target}`\n"
                    "wait until it is done, or choose another name"
                )
            _settle(place, target)


def _prefix(target: Path) -> str:
    """Return what the names of a target's places begin with: of one length for any name."""
    return f"{_PREFIX}{hashlib.sha256(os.fsencode(target.name)).hexdigest()[:8]}-"


def _settle(place: Path, target: Path) -> None:
    """Finish or undo a change of places, then remove the place."""
    old, new, gone = place / "old", place / "new", place / "gone"
    if os.path.lexists(old) and os.path.lexists(new):
        if os.path.lexists(target):
            raise OutputError(
                f"`{target}` came into being while its old state was set aside\n"
                f"the old state is kept in `{old}`\nmove one of the two away and try again"
            )
        old.rename(target)
    elif os.path.lexists(old):
        old.rename(gone)  # it is complete only now; a half-removed one must never come back
    for part in (gone, new):
        _remove(part)
    _remove(place)


def _remove(path: Path) -> None:
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path, ignore_errors=True)
    else:
        path.unlink(missing_ok=True)
