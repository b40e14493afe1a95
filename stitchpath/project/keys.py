"""The keys of a project file, read off the model: kinds, limits, choices, defaults.

Messages, the JSON Schema, the starter project and the reference page all ask here, so that a
limit is written once, beside its field.
"""

from collections.abc import Callable
from dataclasses import MISSING, dataclass, field
from functools import cache
from types import UnionType
from typing import Any, Final, Literal, TypeAlias, Union, get_args, get_origin

from annotated_types import Ge, Le, MaxLen, MinLen
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.catalog.formats import FORMATS
from stitchpath.catalog.line_formats import LINE_FORMATS
from stitchpath.checks import check_names
from stitchpath.layouts import layout_names
from stitchpath.model.project import Project
from stitchpath.model.quantities import Kind
from stitchpath.project.fault import Path

KeyKind: TypeAlias = Literal[
    "length", "share", "colour", "name", "text", "drawing", "design", "gcode", "choice",
    "number", "whole", "switch", "list", "table", "tables",
]  # fmt: skip
"""`list` holds values or lists, `tables` is written `[[a.b]]` or `a = [{...}]`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key of a project file.

    Attributes:
        name: As it is written in the file.
        kind: What its value is.
        description: One short phrase.
        required: Whether a table without it is refused.
        default: What stands in for it; lengths in mm, shares as fractions; None where nothing
            does, or where the chosen layout has a default of its own.
        low: Smallest allowed value; of a list, its fewest items.
        high: Largest allowed value; of a list, its most items.
        choices: Every allowed value of a choice.
        registered: Whether the choices are names that this installation has.
        item: What a list holds, or the first of `items`.
        items: What a list of a fixed number holds, one by one.
        table: The model class of a table, or of each table of a list.
        keys: The keys of that table.
    """

    name: str
    kind: KeyKind
    description: str = ""
    required: bool = False
    default: Any = None
    low: float = float("-inf")
    high: float = float("inf")
    choices: tuple[str, ...] = ()
    registered: bool = False
    item: "Key | None" = None
    items: tuple["Key", ...] = ()
    table: type | None = None
    keys: tuple["Key", ...] = field(default=(), repr=False)


_REGISTERED: Final[dict[str | None, Callable[[], tuple[str, ...]]]] = {
    "layout": layout_names,
    "format": lambda: (*FORMATS, *LINE_FORMATS),
    "bobbin": lambda: tuple(BOBBINS),
    "check": check_names,
}


@cache
def project_key() -> Key:
    """Return the whole file as one table, its keys in the model's order."""
    return _table_key(Key(name="", kind="table"), Project)


def find_key(path: Path) -> Key | None:
    """Return the key at a path, or None where the model has none.

    Example:
        >>> find_key(("machine", "field", 1)).low, find_key(("pocket", "rise"))
        (20.0, None)
    """
    key: Key | None = project_key()
    for part in path:
        if key is None:
            return None
        if isinstance(part, int):
            key = _one_table(key) if key.kind == "tables" else _item(key, part)
        else:
            key = next((inner for inner in key.keys if inner.name == part), None)
    return key


def all_keys(table: Key | None = None, path: Path = ()) -> list[tuple[Path, Key]]:
    """Return every key with its path, tables before their keys; lists of tables at item 0."""
    found: list[tuple[Path, Key]] = []
    for key in (table or project_key()).keys:
        here = (*path, key.name)
        found.append((here, key))
        found += all_keys(key, (*here, 0) if key.kind == "tables" else here) if key.keys else []
    return found


def _item(key: Key, number: int) -> Key | None:
    return key.items[number] if number < len(key.items) else key.item


def _one_table(key: Key) -> Key:
    return Key(name=key.name, kind="table", table=key.table, keys=key.keys)


def _table_key(key: Key, model: type) -> Key:
    fields: dict[str, FieldInfo] = model.__pydantic_fields__  # type: ignore[attr-defined]  # set by pydantic
    inner = tuple(_read(info.alias or name, info) for name, info in fields.items())
    return _with(key, table=model, keys=inner)


def _with(key: Key, **changes: Any) -> Key:  # noqa: ANN401 - any field of a key
    return Key(**{name: getattr(key, name) for name in Key.__slots__} | changes)


def _read(name: str, info: FieldInfo) -> Key:
    annotation, metadata = _without_none(info)
    key = Key(
        name=name,
        kind="name",
        description=info.description or "",
        required=info.is_required(),
        default=_default(info),
        **_limits(metadata),
    )
    return _with_kind(key, annotation, metadata)


def _without_none(info: FieldInfo) -> tuple[Any, list[Any]]:
    """Return a field's type and what is said about it, `X | None` as X: TOML has no null."""
    written: Any = info.annotation
    parts = [part for part in get_args(written) if part is not type(None)]
    if get_origin(written) not in {Union, UnionType} or len(parts) != 1:
        return written, info.metadata
    inner = FieldInfo.from_annotation(parts[0])
    return inner.annotation, [*inner.metadata, *info.metadata]


def _default(info: FieldInfo) -> Any:  # noqa: ANN401 - a value of the model
    value = info.get_default(call_default_factory=True, validated_data={})
    return None if value in (PydanticUndefined, MISSING) else value


def _limits(metadata: list[Any]) -> dict[str, Any]:
    limits: dict[str, Any] = {}
    for limit in metadata:
        match limit:
            case Ge(low) | MinLen(low):
                limits["low"] = float(low)  # type: ignore[arg-type]  # numbers in this model
            case Le(high) | MaxLen(high):
                limits["high"] = float(high)  # type: ignore[arg-type]
            case _:
                pass
    return limits


def _with_kind(key: Key, annotation: Any, metadata: list[Any]) -> Key:  # noqa: ANN401 - a type
    kind = next((mark.name for mark in metadata if isinstance(mark, Kind)), None)
    if kind in _REGISTERED:
        return _with(key, kind="choice", choices=_REGISTERED[kind](), registered=True)
    if kind is not None:
        return _with(key, kind=kind)
    return _by_type(key, annotation)


def _by_type(key: Key, written: Any) -> Key:  # noqa: ANN401 - an annotation
    simple: dict[Any, KeyKind] = {float: "number", int: "whole", bool: "switch", str: "text"}
    if written in simple:
        return _with(key, kind=simple[written])
    if get_origin(written) is Literal:
        return _with(key, kind="choice", choices=get_args(written))
    if get_origin(written) is tuple:
        return _list_key(key, get_args(written))
    return _table_key(_with(key, kind="table"), written)


def _list_key(key: Key, types: tuple[Any, ...]) -> Key:
    if hasattr(types[0], "__pydantic_fields__"):
        return _table_key(_with(key, kind="tables"), types[0])
    items = [
        _read(key.name, FieldInfo.from_annotation(part)) for part in types if part is not ...
    ]
    if Ellipsis in types:
        return _with(key, kind="list", item=items[0])
    count = len(items)
    return _with(key, kind="list", item=items[0], items=tuple(items), low=count, high=count)
