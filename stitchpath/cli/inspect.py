"""`inspect`: what is in stitch files of any kind, and whether they fit a field."""

import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from time import monotonic
from typing import Any, Final, TypeAlias

from stitchpath.cli.folder import write_file
from stitchpath.cli.inspected import Inspected, files_table, inspected_data, inspected_text
from stitchpath.cli.options import option_field
from stitchpath.cli.progress import progress
from stitchpath.cli.reading import stitch_reader
from stitchpath.cli.shared_options import CountOptions
from stitchpath.cli.stitch_files import (
    count_file,
    counting,
    faults_text,
    open_file,
)
from stitchpath.cli.stitch_picture import check_picture_name, picture_of
from stitchpath.cli.terminal import plain, say, say_json, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS, StitchpathError
from stitchpath.machine.content import format_by_name
from stitchpath.preview.words import duration

_MANY_KINDS: Final = frozenset({"csv", "json", "dat", "new", "max", "gcode"})
"""Formats whose endings other files have as well: in a folder, one of them that cannot be read
is not a stitch file."""

_MANY: Final = 50
"""From so many files on a progress bar is shown."""
_LONG_S: Final = 10
"""What takes longer is told: somebody was left waiting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InspectOptions:
    """The options of the command, as typed."""

    count: CountOptions
    field: str | None
    out: Path | None
    replace: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Unread:
    """What could not be read, and why."""

    path: Path
    why: str


_Found: TypeAlias = Inspected | _Unread


def inspect_files(paths: list[Path], options: InspectOptions, *, as_json: bool) -> int:
    """Print what is in stitch files, and in folders of them; return the exit code."""
    if options.out is not None:
        check_picture_name(options.out)
        if len(paths) > 1 or paths[0].is_dir():
            raise UsageError("--out draws one stitch file\nhelp: name just that one")
    begun = monotonic()
    found, passed_over = _look_into(paths, options)
    read = [one for one in found if isinstance(one, Inspected)]
    if as_json:
        say_json([_data(one) for one in found])
    elif read:
        is_single = len(found) == 1 and not paths[0].is_dir()
        say(inspected_text(read[0]) if is_single else files_table(read))
    _tell(found, passed_over, monotonic() - begun)
    if not found:
        named = ", ".join(f"`{plain(path)}`" for path in paths)
        tell(f"there is no stitch file in {named}")
    if options.out is not None:
        tell(plain(f"wrote `{options.out}`"))
    return EXIT_PROBLEMS if any(_is_bad(one) for one in found) else EXIT_DONE


def _look_into(paths: list[Path], options: InspectOptions) -> tuple[list[_Found], int]:
    """Return what was found, in order, and how many files in folders are no stitch files."""
    by = counting(options.count)
    field = None if options.field is None else option_field(options.field)
    found: list[_Found] = []
    with stitch_reader() as reader:

        def look(path: Path) -> Inspected:
            opened = open_file(path, reader)
            counted = count_file(opened, by)
            one = Inspected.of(opened, counted, bobbin=by.machine.bobbin, field=field)
            if options.out is not None:
                drawn = picture_of(opened, counted, one.drawn_field).encode()
                write_file(options.out, drawn, replace=options.replace)
            return one

        if options.out is not None:  # what is wrong with the one file is all there is to say
            return [look(paths[0])], 0
        passed_over, named = 0, frozenset(paths)
        files = list(_files(paths, found))
        with progress("files", len(files), from_=_MANY) as advance:
            for path in files:
                one = _seen(path, look, in_folder=path not in named)
                passed_over += one is None
                found += [one] if one is not None else []
                advance(1)
    return found, passed_over


def _seen(path: Path, look: Callable[[Path], Inspected], *, in_folder: bool) -> _Found | None:
    """Return what is in a file; None where it is in a folder and is no stitch file."""
    kind = format_by_name(path.suffix)
    if in_folder and kind is None:
        return None
    try:
        return look(path)
    except StitchpathError as fault:
        if in_folder and kind in _MANY_KINDS:
            return None
        return _Unread(path=path, why=str(fault))


def _files(paths: list[Path], found: list[_Found]) -> Iterator[Path]:
    """Yield all files, those of folders and of folders in them by name; no link is followed."""

    def refused(fault: OSError) -> None:
        at = Path(fault.filename)
        why = f"`{plain(at)}` cannot be looked through: {fault.strerror}"
        found.append(_Unread(path=at, why=why))

    for path in paths:
        if not path.is_dir():
            yield path
            continue
        for inside, folders, names in os.walk(path, onerror=refused):
            folders.sort()
            for name in sorted(names):
                yield Path(inside) / name


def _data(one: _Found) -> dict[str, Any]:
    if isinstance(one, Inspected):
        return inspected_data(one)
    return {"file": str(one.path), "problem": one.why}


def _tell(found: list[_Found], passed_over: int, seconds: float) -> None:
    """Say what is wrong with which file, and what was left out."""
    for one in found:
        if isinstance(one, _Unread):
            tell(f"error: {plain(one.why)}")
        elif text := faults_text(one.counted, plain(one.counted.path)):
            tell(text)
        if isinstance(one, Inspected) and one.misfit:
            tell(f"error: `{plain(one.counted.path)}`: {one.misfit}")
    if passed_over:
        tell(f"passed over, no stitch file: {passed_over:,}")
    if len(found) > 1:
        bad = sum(_is_bad(one) for one in found)
        took = f", in {duration(seconds)}" if seconds > _LONG_S else ""
        tell(f"looked into {len(found):,} files, {bad:,} with errors{took}")


def _is_bad(one: _Found) -> bool:
    """Tell whether a file must not be sewn, as it is or in the field asked for."""
    if isinstance(one, _Unread):
        return True
    return one.counted.sound.whole is False or bool(one.misfit)
