"""The keys of a project file, read off the model: kinds, limits, choices, defaults.

Messages, the JSON Schema, the starter project and the reference page all ask here, so that a
limit is written once, beside its field.
"""

from dataclasses import MISSING, dataclass, field
from functools import cache
from typing import Any, Literal, TypeAlias, get_args, get_origin

from annotated_types import Ge, Le, MaxLen, MinLen
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.catalog.formats import FORMATS
from stitchpath.layouts import layout_names
from stitchpath.model.project import Project
from stitchpath.model.quantities import Kind
from stitchpath.project.fault import Path

KeyKind: TypeAlias = Literal[
    "length", "share", "colour", "name", "choice", "number", "whole", "switch", "list",
    "table", "tables",
]  # fmt: skip
"""`list` holds values, `tables` is written `[[a.b]]`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """One key of a project file.

    Attributes:
        name: As it is written in the file.
        kind: What its value is.
        description: One short phrase.
        required: Whether a table without it is refused.
        default: What stands in for it; lengths in mm, shares as fractions.
        low: Smallest allowed value; of a list, its fewest items.
        high: Largest allowed value; of a list, its most items.
        choices: Every allowed value of a choice.
        registered: Whether the choices are names that this installation has.
        item: What a list holds.
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
    table: type | None = None
    keys: tuple["Key", ...] = field(default=(), repr=False)


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
            key = _one_table(key) if key.kind == "tables" else key.item
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


def _one_table(key: Key) -> Key:
    return Key(name=key.name, kind="table", table=key.table, keys=key.keys)


def _table_key(key: Key, model: type) -> Key:
    fields: dict[str, FieldInfo] = model.__pydantic_fields__  # type: ignore[attr-defined]  # set by pydantic
    inner = tuple(_read(info.alias or name, info) for name, info in fields.items())
    return _with(key, table=model, keys=inner)


def _with(key: Key, **changes: Any) -> Key:  # noqa: ANN401 - any field of a key
    return Key(**{name: getattr(key, name) for name in Key.__slots__} | changes)


def _read(name: str, info: FieldInfo) -> Key:
    key = Key(
        name=name,
        kind="name",
        description=info.description or "",
        required=info.is_required(),
        default=_default(info),
        **_limits(info),
    )
    return _with_kind(key, info)


def _default(info: FieldInfo) -> Any:  # noqa: ANN401 - a value of the model
    value = info.get_default(call_default_factory=True, validated_data={})
    return None if value in (PydanticUndefined, MISSING) else value


def _limits(info: FieldInfo) -> dict[str, Any]:
    limits: dict[str, Any] = {}
    for limit in info.metadata:
        match limit:
            case Ge(low) | MinLen(low):
                limits["low"] = float(low)  # type: ignore[arg-type]  # numbers in this model
            case Le(high) | MaxLen(high):
                limits["high"] = float(high)  # type: ignore[arg-type]
            case _:
                pass
    return limits


def _with_kind(key: Key, info: FieldInfo) -> Key:
    kind = next((mark.name for mark in info.metadata if isinstance(mark, Kind)), None)
    if kind in {"layout", "format", "bobbin"}:
        return _with(key, kind="choice", choices=_registered(kind), registered=True)
    if kind is not None:
        return _with(key, kind=kind)
    return _by_type(key, info.annotation)


def _registered(kind: str) -> tuple[str, ...]:
    if kind == "layout":
        return layout_names()
    return tuple(FORMATS) if kind == "format" else tuple(BOBBINS)


def _by_type(key: Key, written: Any) -> Key:  # noqa: ANN401 - an annotation
    simple: dict[Any, KeyKind] = {float: "number", int: "whole", bool: "switch"}
    if written in simple:
        return _with(key, kind=simple[written])
    if get_origin(written) is Literal:
        return _with(key, kind="choice", choices=get_args(written))
    if get_origin(written) is tuple:
        return _list_key(key, get_args(written))
    model = next(part for part in (*get_args(written), written) if part is not type(None))
    return _table_key(_with(key, kind="table"), model)


def _list_key(key: Key, items: tuple[Any, ...]) -> Key:
    if hasattr(items[0], "__pydantic_fields__"):
        return _table_key(_with(key, kind="tables"), items[0])
    item = _read(key.name, FieldInfo.from_annotation(items[0]))
    if Ellipsis in items:
        return _with(key, kind="list", item=item)
    return _with(key, kind="list", item=item, low=len(items), high=len(items))
