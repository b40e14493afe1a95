"""What pydantic found wrong in a project's data, as faults in a maker's words."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Final, cast

from pydantic_core import ErrorDetails

from stitchpath.model.shape import FORMS
from stitchpath.project.advice import example_help, home_text, type_help
from stitchpath.project.case import Case
from stitchpath.project.fault import Fault, Path, clipped, key_path
from stitchpath.project.keys import all_keys, find_key, project_key
from stitchpath.project.nearest import nearest
from stitchpath.project.text_faults import TEXT_READINGS, Reading
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
        case = Case(
            error=error["type"],
            why=error["msg"],
            path=path,
            value=value,
            typed=clipped(typed(path) or _shown(value)),
            key=key,
            unit=unit,
        )
        yield _reading(case)(case)


def _reading(case: Case) -> Reading:
    """Return how an error is told; one of a kind not listed is a value of the wrong type."""
    if isinstance(case.value, str) and case.error in TEXT_READINGS:
        return TEXT_READINGS[case.error]
    return _READINGS.get(case.error, _wrong_type)


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


def _missing(case: Case) -> Fault:
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


def _out_of_range(case: Case) -> Fault:
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


def _unit_notes(case: Case) -> tuple[str, ...]:
    """Say what a bare number means, where one was given for a length."""
    value = case.value
    if case.key.kind != "length" or not isinstance(value, str | int | float):
        return ()
    if parse_length(value, unit="in") == parse_length(value, unit="mm"):
        return ()
    return (f"a number without a unit is in {UNIT_NAMES[case.unit]} in this project",)


def _counted(case: Case) -> Fault:
    return _list_count(case, case.path, len(cast("list[object]", case.value)))


def _list_count(case: Case, path: Path, count: int) -> Fault:
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


def _not_one_shape(case: Case) -> Fault:
    given = [form for form in FORMS if cast("dict[str, object]", case.value).get(form)]
    told = f"{len(given)} shapes: {all_of(given)}" if given else "no shape"
    return Fault(
        code="not-one-shape",
        path=case.path,
        message=f"{case.name} gives {told}",
        label=f"must have exactly one of {any_of(FORMS)}",
        help="leave all but one of them out" if given else example_help(case.key, case.path),
    )


def _wrong_type(case: Case) -> Fault:
    key, value = case.key, case.value
    if key.kind == "number" and isinstance(value, int) and not isinstance(value, bool):
        # it has more digits than a float holds
        error = "less_than_equal" if value > 0 else "greater_than_equal"
        return _out_of_range(replace(case, error=error))
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


_READINGS: Final[dict[str, Reading]] = {
    "missing": _missing,
    "finite_number": _out_of_range,
    "greater_than_equal": _out_of_range,
    "less_than_equal": _out_of_range,
    "too_short": _counted,
    "too_long": _counted,
    "shape": _not_one_shape,
}
"""By the name of the error, for values of any type."""
