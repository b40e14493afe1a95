"""Files and folders written whole or not at all, and never over what the maker made."""

import contextlib
import hashlib
import json
import os
import shutil
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Final

from stitchpath.cli.staging import staging, swap_in, sync_folder, write_synced
from stitchpath.errors import OutputError

PLAN: Final = "plan.json"
_MOST_NAMED: Final = 5
_AT_A_TIME: Final = 8  # files that are written through to the disk together


@dataclass(frozen=True, slots=True, kw_only=True)
class _Own:
    """What is the maker's own in a folder: paths of files and links, and of empty folders."""

    files: tuple[str, ...] = ()
    empty: tuple[str, ...] = ()


def write_folder(target: Path, files: Mapping[str, bytes]) -> None:
    """Make a folder hold these files, and the maker's own that were in it already.

    Files of an earlier make, told by the `files` of its plan.json and unchanged since, are
    replaced or dropped. Everything else in the folder is the maker's own and stays.

    Args:
        target: The folder; it and the folders above it are made where they are missing. A link
            to a folder is followed.
        files: Contents by relative path with `/`; one is `plan.json`, whose JSON has `files`:
            the SHA-256 of every other file by its path.

    Raises:
        OutputError: It cannot be written, or a file of the maker's own stands where a new file
            has to go; the folder is as it was.
    """
    _check_names(files)
    folder = _real_folder(target)
    with staging(folder) as place:
        own = _find_own(folder, files)
        new = place / "new"
        new.mkdir()
        _write_all(new, files)
        _carry_over(folder, new, own)
        for inside, _, _ in os.walk(new):
            sync_folder(Path(inside))
        swap_in(place, folder)


def write_file(path: Path, data: bytes, *, replace: bool = False) -> None:
    """Write one file, whole or not at all.

    Args:
        path: The file; folders above it are made where they are missing.
        data: Its contents.
        replace: May it take the place of a file; a link is followed.

    Raises:
        OutputError: It cannot be written, or it exists and `replace` is false.
    """
    exists = os.path.lexists(path)
    if exists and not replace:
        raise OutputError(f"`{path}` exists already\nchoose another name or move it away")
    if exists and not path.is_file():
        raise OutputError(f"`{path}` is not a plain file\nchoose another name")
    real = Path(os.path.realpath(path))
    with staging(real) as place:
        new = place / "new"
        write_synced(new, data)
        if exists:
            shutil.copymode(real, new)
            new.replace(real)
        else:
            _appear(new, real)
        sync_folder(real.parent)


def _appear(new: Path, path: Path) -> None:
    """Give a file its name, but not over one that has come up since."""
    try:
        os.link(new, path)
    except FileExistsError:
        raise OutputError(f"`{path}` exists already\nchoose another name") from None
    except OSError:  # a disk without hard links
        new.rename(path)


def _check_names(files: Mapping[str, bytes]) -> None:
    if PLAN not in files:
        raise ValueError(f"a folder is told by its {PLAN}")
    for name in files:
        parts = PurePosixPath(name).parts
        if not parts or name != "/".join(parts) or ".." in parts or "\\" in name:
            raise ValueError(f"not a plain relative path: {name!r}")


def _real_folder(target: Path) -> Path:
    """Return the folder itself, links followed, if it can be replaced."""
    folder = Path(os.path.realpath(target))
    if os.path.lexists(target) and not target.is_dir():
        raise OutputError(f"`{target}` is not a folder\nchoose another one")
    if os.path.ismount(folder):
        raise OutputError(f"`{target}` is a whole disk\nchoose a folder on it")
    if folder in (here := Path.cwd().resolve()).parents or folder == here:
        raise OutputError(f"`{target}` holds the folder you are in\nchoose a folder inside it")
    return folder


def _find_own(folder: Path, files: Mapping[str, bytes]) -> _Own:
    """Look through a folder for what no earlier make made."""
    if not folder.exists():
        return _Own()
    made = _manifest(folder)
    own, empty = [], []
    for inside, folders, names in os.walk(folder, onerror=_stop):
        _check_disk(Path(inside), folders)
        links = [name for name in folders if (Path(inside) / name).is_symlink()]
        for name in [*links, *names]:
            path = Path(inside) / name
            relative = path.relative_to(folder).as_posix()
            if not _is_made(path, relative, made):
                own.append(relative)
        if not folders and not names and Path(inside) != folder:
            empty.append(Path(inside).relative_to(folder).as_posix())
    _check_room(folder, sorted(own), sorted(empty), files)
    return _Own(files=tuple(sorted(own)), empty=tuple(sorted(empty)))


def _check_disk(inside: Path, folders: list[str]) -> None:
    """Refuse a folder with another disk in it, whose files would be copied and then removed."""
    for path in (inside / name for name in folders):
        if os.path.ismount(path):
            raise OutputError(
                f"`{path}` is another disk\nchoose another folder, or take the disk out\n"
                "nothing was changed"
            )


def _stop(fault: OSError) -> None:
    raise fault  # a folder that cannot be looked through might hide the maker's files


def _manifest(folder: Path) -> dict[str, str]:
    """Return the hashes that an earlier make left, plan.json itself with none."""
    try:
        plan = json.loads((folder / PLAN).read_bytes())
        hashes = plan["files"]
        return {PLAN: "", **{str(name): str(hashed) for name, hashed in hashes.items()}}
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return {}


def _is_made(path: Path, relative: str, made: Mapping[str, str]) -> bool:
    if relative not in made or path.is_symlink() or not path.is_file():
        return False
    return relative == PLAN or hashlib.sha256(path.read_bytes()).hexdigest() == made[relative]


def _check_room(
    folder: Path, own: list[str], empty: list[str], files: Mapping[str, bytes]
) -> None:
    """Say which of the maker's own files stand where new ones have to go."""
    new_folders = {
        parent.as_posix() for name in files for parent in PurePosixPath(name).parents
    }
    own_folders = {
        parent.as_posix() for name in own for parent in PurePosixPath(name).parents
    }.union(empty)
    blocking = [
        name for name in own if name in new_folders or _differs(folder, name, files)
    ] + sorted(own_folders & files.keys())
    if blocking:
        named = [f"`{folder / name}` is your own and in the way" for name in blocking]
        more = len(named) - _MOST_NAMED
        rest = [f"and {more} more"] if more > 0 else []
        lines = [*named[:_MOST_NAMED], *rest, "move it away or choose another folder"]
        raise OutputError("\n".join([*lines, "nothing was changed"]))


def _differs(folder: Path, name: str, files: Mapping[str, bytes]) -> bool:
    if name not in files:
        return False
    path = folder / name
    return path.is_symlink() or not path.is_file() or path.read_bytes() != files[name]


def _write_all(new: Path, files: Mapping[str, bytes]) -> None:
    """Write all files, several at a time: most of it is waiting for the disk."""
    paths = [new / name for name in files]
    for folder in dict.fromkeys(path.parent for path in paths):
        _make_folders(new, folder)
    with ThreadPoolExecutor(_AT_A_TIME) as pool:
        for _ in pool.map(write_synced, paths, files.values()):
            pass


def _make_folders(new: Path, folder: Path) -> None:
    """Make folders below `new`, never `new` itself: where it is gone, so is the disk."""
    at = new
    for part in folder.relative_to(new).parts:
        at /= part
        at.mkdir(exist_ok=True)


def _carry_over(folder: Path, new: Path, own: _Own) -> None:
    for name in own.empty:
        _make_folders(new, new / name)
    for name in own.files:
        path = new / name
        _make_folders(new, path.parent)
        if not os.path.lexists(path):  # one that is the same as a new file is there already
            _keep(folder / name, path)
    for inside, _, _ in os.walk(new):
        before = folder / Path(inside).relative_to(new)
        if before.is_dir():
            shutil.copymode(before, inside)


def _keep(path: Path, kept: Path) -> None:
    """Give a file a second name; copy it on a disk without hard links."""
    with contextlib.suppress(OSError, NotImplementedError):  # the second where links are alien
        os.link(path, kept, follow_symlinks=False)
        return
    shutil.copy2(path, kept, follow_symlinks=False)
