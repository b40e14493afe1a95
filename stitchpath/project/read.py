"""A project file's text to a `Project`, or every problem in it at once."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any, Final, TypeAlias, TypeVar, get_args

from pydantic import TypeAdapter, ValidationError

from stitchpath.errors import Problem, ProjectError, Span
from stitchpath.model.design import DesignFile
from stitchpath.model.drawing import Drawing
from stitchpath.model.project import Project
from stitchpath.project.choices import choice_faults
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.keys import find_key
from stitchpath.project.locate import Places, find_places
from stitchpath.project.own_defaults import with_own_spacing
from stitchpath.project.problems import read_faults
from stitchpath.project.rules import rule_faults
from stitchpath.project.syntax import LARGEST, parse_toml, plain_text, too_big
from stitchpath.project.wording import written_text
from stitchpath.units import Unit

MOST_PROBLEMS: Final = 100
"""Problems listed; of more, only the number is said."""

MOST_DRAWINGS: Final = 20
"""SVG files of one project; reading one takes up to three seconds."""

MOST_DESIGNS: Final = 20
"""Stitch files of one project."""

_File = TypeVar("_File", Drawing, DesignFile)
Load: TypeAlias = Callable[[str], _File]
"""Gives what a file of a name holds, or raises a ValueError."""

_MOST_READ: Final = 1000
"""Faults put in words before they are sorted: a file of a megabyte can have 100,000."""

_ADAPTER: Final = TypeAdapter(Project)


def decode_project(data: bytes) -> str:
    r"""Return the text of a project file: UTF-8, with or without a byte order mark.

    Raises:
        ProjectError: The bytes are too many or not UTF-8; the problem says where.

    Example:
        >>> decode_project(b"\xef\xbb\xbfname = 'T'")
        "name = 'T'"
    """
    if len(data) > LARGEST:
        raise too_big(len(data), "bytes")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise ProjectError((_not_utf_8(data, fault.start),)) from fault


def read_project(
    text: str,
    *,
    load: Load[Drawing] | None = None,
    load_design: Load[DesignFile] | None = None,
) -> Project:
    r"""Return the project that a file describes, every length in mm.

    A byte order mark and Windows line ends are tolerated.

    Args:
        text: A project file as docs/project-file.md describes it; at most `LARGEST` characters.
        load: Gives the drawing of a name in the file; a ValueError of its says why it cannot.
            Called once for each name.
        load_design: The same for the design of a name.

    Raises:
        ProjectError: With every problem of the file, in the order of their places; with one
            only where the text is no TOML. At most `MOST_PROBLEMS` are listed.

    Example:
        >>> read_project('units = "in"\n[quilt]\nwidth = 40\nlength = "50 1/2"').quilt.length
        1282.7
    """
    plain = plain_text(text)
    data = parse_toml(plain)
    unit = _unit_of(data)
    places = find_places(plain)
    faults = list(choice_faults(data))
    try:
        project = _ADAPTER.validate_python(
            with_own_spacing(data),
            context={
                "units": unit,
                "load": _remembered(load, "drawings", MOST_DRAWINGS),
                "load_design": _remembered(load_design, "designs", MOST_DESIGNS),
            },
            by_alias=True,
            by_name=False,
        )
    except ValidationError as error:
        found = error.errors(include_url=False)
        faults += read_faults(found[:_MOST_READ], unit=unit, typed=places.typed)
        unread = max(len(found) - _MOST_READ, 0)
        raise ProjectError(_listed(faults, places, unread=unread)) from None
    faults = faults or [_with_default(f, places, project) for f in rule_faults(project, data)]
    if faults:
        raise ProjectError(_listed(faults, places))
    return project


def _remembered(load: Load[_File] | None, what: str, most: int) -> Load[_File]:
    """Return a loader that reads each file once, and no more than `most`."""
    known: dict[str, _File | str] = {}

    def remembering(name: str) -> _File:
        if load is None:
            raise ValueError(f"no folder is known that {what} could be in")
        if name not in known:
            if len(known) >= most:
                raise ValueError(f"a project has at most {most} {what}")
            try:
                known[name] = load(name)
            except ValueError as fault:
                known[name] = str(fault)
        found = known[name]
        if isinstance(found, str):
            raise ValueError(found)  # noqa: TRY004 - what the loader said of it
        return found

    return remembering


def _unit_of(data: dict[str, Any]) -> Unit:
    unit: object = data.get("units", "mm")
    return next((known for known in get_args(Unit) if known == unit), "mm")


def _listed(faults: Iterable[Fault], places: Places, *, unread: int = 0) -> tuple[Problem, ...]:
    problems = sorted((_problem(fault, places) for fault in faults), key=_place)
    if (more := len(problems) - MOST_PROBLEMS + unread) <= 0:
        return tuple(problems)
    return (
        *problems[:MOST_PROBLEMS],
        Problem(
            code="more-problems",
            message=f"the file has {more:,} more problems",
            label=f"the first {MOST_PROBLEMS} are listed",
            help="mend these first",
        ),
    )


def _problem(fault: Fault, places: Places) -> Problem:
    return Problem(
        code=fault.code,
        message=fault.message,
        key=key_path(fault.path),
        span=places.span_of(fault),
        label=fault.label,
        notes=fault.notes,
        help=fault.help,
    )


def _place(problem: Problem) -> tuple[float, float]:
    span = problem.span
    return (span.line, span.column) if span is not None else (float("inf"), 0)


def _with_default(fault: Fault, places: Places, project: Project) -> Fault:
    """Point at the table, and name the default, where a rule speaks of a key not written."""
    key = find_key(fault.path)
    if (
        fault.at != "value"
        or key is None
        or fault.path in places.values
        or fault.path in places.tables
        or key.keys
    ):
        return fault
    default = written_text(key, _value_at(project, fault.path))
    note = f"`{key.name}` is not given; its default is {default}"
    return replace(fault, notes=(*fault.notes, note), at="table")


def _value_at(project: Project, path: Path) -> object:
    value: Any = project
    for part in path:
        value = value[part] if isinstance(part, int) else getattr(value, part)
    return value


def _not_utf_8(data: bytes, start: int) -> Problem:
    line_start = data.rfind(b"\n", 0, start) + 1
    column = len(data[line_start:start].decode("utf-8-sig", errors="replace")) + 1
    return Problem(
        code="not-utf-8",
        message=f"the byte {data[start]:#04x} is not UTF-8",
        span=Span(line=data.count(b"\n", 0, start) + 1, column=column),
        label="here",
        help="save the file as UTF-8",
    )
