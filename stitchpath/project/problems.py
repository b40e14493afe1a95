"""What pydantic found wrong in a project's data, as faults in a maker's words."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final, TypeAlias, cast

import webcolors
from pydantic_core import ErrorDetails

from stitchpath.model.shape import FORMS
from stitchpath.project.advice import example_help, home_text, type_help
from stitchpath.project.choices import not_a_choice
from stitchpath.project.fault import Code, Fault, Path, clipped, key_path
from stitchpath.project.keys import Key, all_keys, find_key, project_key
from stitchpath.project.nearest import nearest
from stitchpath.project.wording import (
    UNIT_NAMES,
    all_of,
    any_of,
    exact_text,
    inside,
    kind_text,
    limits_text,
    quantity_text,
    table_header,
)
from stitchpath.units import Unit, parse_length

_TYPES: Final[tuple[tuple[type, str], ...]] = (
    (bool, "true or false"),
    (int, "a whole number"),
    (float, "a number with decimals"),
    (str, "text"),
    (list, "a list"),
    (dict, "a table"),
)


@dataclass(frozen=True, slots=True)
class _Case:
    """One error of pydantic's with what is known about its key."""

    error: str
    why: str
    path: Path
    value: object
    typed: str
    key: Key
    unit: Unit

    @property
    def name(self) -> str:
        return f"`{key_path(self.path)}`"

    @property
    def limits(self) -> str:
        return f"must be {limits_text(self.key, self.unit)}"


_Reading: TypeAlias = Callable[[_Case], Fault]


def read_faults(
    errors: list[ErrorDetails], *, unit: Unit, typed: Callable[[Path], str | None]
) -> Iterator[Fault]:
    """Yield one fault for each error of pydantic's.

    Args:
        errors: From a `ValidationError` of `Project`, data read by alias.
        unit: The project's unit.
        typed: Gives a value as it stands in the file, or None.
    """
    for error in errors:
        path: Path = error["loc"]
        key = find_key(path)
        if key is None:
            yield _unknown_key(path)
            continue
        value = error["input"]
        case = _Case(
            error=error["type"],
            why=error["msg"],
            path=path,
            value=value,
            typed=clipped(typed(path) or _shown(value)),
            key=key,
            unit=unit,
        )
        yield _READINGS.get(case.error, _wrong_type)(case)


def _shown(value: object) -> str:
    """Return a value as Python writes it; Python refuses whole numbers of 4,300 digits."""
    try:
        return repr(value)
    except ValueError:
        return "a number of more than 4,300 digits"


def _unknown_key(path: Path) -> Fault:
    name, table = str(path[-1]), find_key(path[:-1]) or project_key()
    names = [key.name for key in table.keys]
    near = nearest(name, names)
    homes = [home_text(home[:-1]) for home, _ in all_keys() if home[-1] == name]
    if near:
        help_ = f"the nearest key is `{near}`"
    elif homes:
        help_ = f"`{name}` belongs in {' or '.join(dict.fromkeys(homes))}"
    else:
        help_ = f"the keys {inside(path[:-1])} are {', '.join(f'`{name}`' for name in names)}"
    return Fault(
        code="unknown-key",
        path=path,
        message=f"there is no key `{clipped(name)}` {inside(path[:-1])}",
        label="not a key",
        help=help_,
        at="key",
    )


def _missing(case: _Case) -> Fault:
    if isinstance(case.path[-1], int):
        return _list_count(case, case.path[:-1], len(cast("list[object]", case.value)))
    if case.key.kind == "table":
        needed = all_of([key.name for key in case.key.keys if key.required])
        help_ = f"add {table_header(case.path, 'table')} with {needed}"
    else:
        help_ = f"add `{case.key.name} = ...`, the {case.key.description}"
    return Fault(
        code="missing-key",
        path=case.path,
        message=f"{case.name} is missing",
        label=f"`{case.key.name}` {case.limits}" if case.key.kind != "table" else "",
        help=help_,
        at="table",
    )


def _out_of_range(case: _Case) -> Fault:
    low, high = (
        exact_text(limit, case.unit)
        if case.key.kind == "length"
        else quantity_text(case.key, limit, case.unit)
        for limit in (case.key.low, case.key.high)
    )
    if case.error == "finite_number":
        message, help_ = "is not a finite number", f"a value between {low} and {high}"
    elif case.error == "greater_than_equal":
        message, help_ = "is below the smallest allowed value", f"{low} or more"
    else:
        message, help_ = "is above the largest allowed value", f"{high} or less"
    return Fault(
        code="out-of-range",
        path=case.path,
        message=f"{case.name} {message}: {case.typed}",
        label=case.limits,
        notes=() if case.error == "finite_number" else _unit_notes(case),
        help=f"set {case.name} to {help_}",
    )


def _unit_notes(case: _Case) -> tuple[str, ...]:
    """Say what a bare number means, where one was given for a length."""
    value = case.value
    if case.key.kind != "length" or not isinstance(value, str | int | float):
        return ()
    if parse_length(value, unit="in") == parse_length(value, unit="mm"):
        return ()
    return (f"a number without a unit is in {UNIT_NAMES[case.unit]} in this project",)


def _counted(case: _Case) -> Fault:
    return _list_count(case, case.path, len(cast("list[object]", case.value)))


def _list_count(case: _Case, path: Path, count: int) -> Fault:
    key = find_key(path) or case.key
    thing = "table" if key.kind == "tables" else "value"
    high = f"{key.high:g}" if key.kind == "tables" else ""
    return Fault(
        code="wrong-count",
        path=path,
        message=f"`{key_path(path)}` has {count or 'no'} {thing}{'s' if count != 1 else ''}",
        label=f"must be {f'at most {high} tables' if high else limits_text(key, case.unit)}",
        help="" if key.kind == "tables" else example_help(key, path),
    )


def _too_long_text(case: _Case) -> Fault:
    return Fault(
        code="wrong-count",
        path=case.path,
        message=f"{case.name} has {len(cast('str', case.value)):,} characters",
        label=case.limits,
        help="use fewer words, or a second layout for a second line",
    )


def _not_one_shape(case: _Case) -> Fault:
    given = [form for form in FORMS if cast("dict[str, object]", case.value).get(form)]
    told = f"{len(given)} shapes: {all_of(given)}" if given else "no shape"
    return Fault(
        code="not-one-shape",
        path=case.path,
        message=f"{case.name} gives {told}",
        label=f"must have exactly one of {any_of(FORMS)}",
        help="leave all but one of them out" if given else example_help(case.key, case.path),
    )


def _not_a_drawing(case: _Case) -> Fault:
    if not isinstance(case.value, str):
        return _wrong_type(case)
    return Fault(
        code="not-a-drawing",
        path=case.path,
        message=f"{case.name} cannot be read as a drawing: {case.typed}",
        label="must be an SVG file in the project's folder, or in a folder within it",
        notes=(case.why,),
        help="docs/project-file.md says what of an SVG file is read",
    )


def _not_a_design(case: _Case) -> Fault:
    if not isinstance(case.value, str):
        return _wrong_type(case)
    return Fault(
        code="not-a-design",
        path=case.path,
        message=f"{case.name} cannot be read as a design: {case.typed}",
        label="must be a stitch file in the project's folder, or in a folder within it",
        notes=(case.why,),
        help="`stitchpath inspect` says what is in a stitch file",
    )


def _unreadable(code: Code, what: str) -> _Reading:
    def reading(case: _Case) -> Fault:
        if not isinstance(case.value, str):
            return _wrong_type(case)
        return Fault(
            code=code,
            path=case.path,
            message=f"{case.name} is not {what}: {case.typed}",
            label=case.limits,
            help=case.why,
        )

    return reading


def _not_a_colour(case: _Case) -> Fault:
    if not isinstance(case.value, str):
        return _wrong_type(case)
    near = nearest(case.value, webcolors.names())
    return Fault(
        code="not-a-colour",
        path=case.path,
        message=f"{case.name} is not a colour: {case.typed}",
        label=case.limits,
        help=f"the nearest colour is `{near}`" if near else "a hex code has 6 digits after `#`",
    )


def _not_a_name(case: _Case) -> Fault:
    if not isinstance(case.value, str):
        return _wrong_type(case)
    return Fault(
        code="control-character" if "control character" in case.why else "not-a-name",
        path=case.path,
        message=f"{case.name} {case.why}",
        label=case.limits,
        help="use plain text, as it should stand on a printed sheet",
    )


def _choice(case: _Case) -> Fault:
    if isinstance(case.value, str):
        return not_a_choice(case.path, case.key, case.value)
    return _wrong_type(case)


def _wrong_type(case: _Case) -> Fault:
    key, value = case.key, case.value
    if key.kind == "number" and isinstance(value, int) and not isinstance(value, bool):
        return _out_of_range(_bounded(case, value))
    kind = next(
        (name for type_, name in _TYPES if isinstance(value, type_)), "a date or a time"
    )
    return Fault(
        code="wrong-type",
        path=case.path,
        message=f"{case.name} cannot be {kind}",
        label=f"must be {kind_text(key) if not key.keys else limits_text(key, case.unit)}",
        help=type_help(case.key, case.path),
    )


def _bounded(case: _Case, value: int) -> _Case:
    """Take a whole number with more digits than a float holds for out of range."""
    error = "less_than_equal" if value > 0 else "greater_than_equal"
    return _Case(error, case.why, case.path, value, case.typed, case.key, case.unit)


_READINGS: Final[dict[str, _Reading]] = {
    "missing": _missing,
    "literal_error": _choice,
    "finite_number": _out_of_range,
    "greater_than_equal": _out_of_range,
    "less_than_equal": _out_of_range,
    "too_short": _counted,
    "too_long": _counted,
    "length": _unreadable("not-a-length", "a length"),
    "share": _unreadable("not-a-percentage", "a percentage"),
    "colour": _not_a_colour,
    "gcode": _unreadable("not-gcode", "words of G-code for a needle"),
    "name": _not_a_name,
    "string_too_long": _too_long_text,
    "shape": _not_one_shape,
    "drawing": _not_a_drawing,
    "design": _not_a_design,
}
"""By pydantic's name of the error; every other one is a value of the wrong type."""
