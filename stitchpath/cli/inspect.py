"""`inspect`: what is in stitch files of any kind, and whether they fit a field."""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, TypeAlias

from stitchpath.cli.folder import write_file
from stitchpath.cli.inspected import Inspected, files_table, inspected_data, inspected_text
from stitchpath.cli.options import option_field
from stitchpath.cli.reading import stitch_reader
from stitchpath.cli.stitch_files import CountOptions, count_file, counting, faults_text
from stitchpath.cli.stitch_picture import check_picture_name, picture_of
from stitchpath.cli.terminal import plain, say, say_json, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS, StitchpathError
from stitchpath.machine.content import format_by_name

_MANY_KINDS: Final = frozenset({"csv", "json", "dat", "new", "max", "gcode"})
"""Formats whose endings other files have as well: in a folder, one of them that cannot be read
is not a stitch file."""


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
    found, passed_over = _look_into(paths, options)
    if options.out is not None:
        _draw(found[0], options.out, replace=options.replace)
    read = [one for one in found if isinstance(one, Inspected)]
    if as_json:
        say_json([_data(one) for one in found])
    elif read:
        is_single = len(found) == 1 and not paths[0].is_dir()
        say(inspected_text(read[0]) if is_single else files_table(read))
    _tell(found, passed_over)
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
    passed_over = 0
    with stitch_reader() as reader:
        for path in _files(paths, found):
            in_folder = path not in paths
            kind = format_by_name(path.suffix)
            try:
                if in_folder and kind is None:
                    passed_over += 1
                else:
                    counted = count_file(path, reader, by)
                    found.append(Inspected.of(counted, by.machine.bobbin, field))
            except StitchpathError as fault:
                if in_folder and kind in _MANY_KINDS:
                    passed_over += 1
                else:
                    found.append(_Unread(path=path, why=str(fault)))
    return found, passed_over


def _files(paths: list[Path], found: list[_Found]) -> Iterator[Path]:
    """Yield all files, those of folders and of folders in them by name; no link is followed."""

    def refused(fault: OSError) -> None:
        why = f"`{fault.filename}` cannot be looked through: {fault.strerror}"
        found.append(_Unread(path=Path(fault.filename), why=why))

    for path in paths:
        if not path.is_dir():
            yield path
            continue
        for inside, folders, names in os.walk(path, onerror=refused):
            folders.sort()
            for name in sorted(names):
                yield Path(inside) / name


def _draw(one: _Found, out: Path, *, replace: bool) -> None:
    if isinstance(one, _Unread):
        raise StitchpathError(one.why)
    picture = picture_of(one.counted, one.drawn_field)
    write_file(out, picture.encode(), replace=replace)


def _data(one: _Found) -> dict[str, Any]:
    if isinstance(one, Inspected):
        return inspected_data(one)
    return {"file": str(one.path), "problem": one.why}


def _tell(found: list[_Found], passed_over: int) -> None:
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
        tell(f"looked into {len(found):,} files, {bad:,} with errors")


def _is_bad(one: _Found) -> bool:
    """Tell whether a file must not be sewn, as it is or in the field asked for."""
    if isinstance(one, _Unread):
        return True
    return one.counted.file.sound.whole is False or bool(one.misfit)
