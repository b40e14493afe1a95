"""The JSON Schema of project files, so that editors can complete and check them."""

from math import isfinite
from typing import Any, Final

import webcolors
from pydantic import TypeAdapter

from stitchpath.model.project import Project
from stitchpath.model.quantities import GCODE_PATTERN, SHARE_PATTERN
from stitchpath.project.keys import Key, all_keys, project_key
from stitchpath.project.wording import default_text, limits_text, told_text
from stitchpath.units import LENGTH_PATTERN, MM_PER

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"

_FORMS: Final[dict[str, dict[str, Any]]] = {
    "colour": {"$ref": "#/$defs/colour"},
    "switch": {"type": "boolean"},
    "name": {"type": "string"},
    "text": {"type": "string"},
    "drawing": {"type": "string", "pattern": "[.][sS][vV][gG]$"},
    "design": {"type": "string", "pattern": "[.][A-Za-z0-9]+$"},
    "gcode": {"type": "string", "pattern": GCODE_PATTERN},
}
_TABLE_FORM: Final = frozenset({"type", "maxItems", "items", "$ref"})


def project_schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of project files.

    It allows a little more than reading does: it cannot know the project's unit, so a bare
    number may be as large as the limit in mm and as small as the limit in inches, text is only
    looked at for its form, and rules between keys are not in it.

    Example:
        >>> project_schema()["required"]
        ['quilt']
    """
    schema = TypeAdapter(Project).json_schema(by_alias=True)
    for key in (project_key(), *(key for _, key in all_keys())):
        if key.table is not None:
            name = key.table.__name__
            table = schema if name == Project.__name__ else schema["$defs"][name]
            table.pop("title", None)
            table["properties"] = {
                inner.name: _property(inner, table["properties"][inner.name])
                for inner in key.keys
            }
    schema["$defs"] = dict(sorted(schema["$defs"].items())) | _QUANTITIES
    return {"$schema": DIALECT, "title": "Stitchpath project"} | schema


def _property(key: Key, given: dict[str, Any]) -> dict[str, Any]:
    told: dict[str, Any] = {"title": key.name.replace("_", " "), "description": _told(key)}
    if not key.keys and not key.required and key.default is not None:
        told["default"] = _default(key)
    return told | _form(key, given)


def _form(key: Key, given: dict[str, Any]) -> dict[str, Any]:
    """Return what a value must look like."""
    if key.kind in {"table", "tables"}:
        return _table_form(given)
    if key.choices:
        return {"type": "string", "enum": list(key.choices)}
    return _list_form(key) if key.kind == "list" else _value_form(key)


def _list_form(key: Key) -> dict[str, Any]:
    few, many = _whole(key.low), _whole(key.high)
    form = {"type": "array", "minItems": few, "maxItems": many}
    if len({(item.kind, item.low, item.high) for item in key.items}) > 1:
        return form | {"prefixItems": [_form(item, {}) for item in key.items]}
    return form | {"items": _form(key.item or key, {})}


def _table_form(given: dict[str, Any]) -> dict[str, Any]:
    """Return pydantic's own form of a table or a list of tables."""
    form = given
    if "anyOf" in given:  # a table that may be left out: TOML has no null
        form = next(choice for choice in given["anyOf"] if "$ref" in choice)
    return {name: told for name, told in form.items() if name in _TABLE_FORM}


def _value_form(key: Key) -> dict[str, Any]:
    if key.kind in {"length", "share"}:
        return {"anyOf": [_bare_number(key), {"$ref": f"#/$defs/{key.kind}"}]}
    if key.kind in {"number", "whole"}:
        number = "integer" if key.kind == "whole" else "number"
        return {"type": number, "minimum": _whole(key.low), "maximum": _whole(key.high)}
    limits = {"minLength": key.low, "maxLength": key.high}
    told = {name: _whole(limit) for name, limit in limits.items() if isfinite(limit)}
    return _FORMS[key.kind] | told


def _bare_number(key: Key) -> dict[str, Any]:
    """Return the widest limits of a number whose unit is not known."""
    if key.kind == "share":
        low, high = key.low * 100, key.high * 100
    else:
        largest = max(MM_PER.values())
        low, high = min(key.low, key.low / largest), key.high
    return {"type": "number", "minimum": _whole(low), "maximum": _whole(high)}


def _whole(number: float) -> float:
    """Return a whole number as one: `2`, not `2.0`."""
    return int(number) if number == int(number) else number


def _told(key: Key) -> str:
    if key.keys:
        return key.description
    told = limits_text if key.item is not None and key.item.choices else told_text
    return f"{key.description}: {told(key, 'mm')}"


def _default(key: Key) -> Any:  # noqa: ANN401 - any value of JSON
    if key.kind == "list":
        item = key.item or key
        return [_plain(item, value) for value in key.default]
    return _plain(key, key.default)


def _plain(key: Key, value: object) -> object:
    if key.kind not in {"length", "share"}:
        return value
    one = Key(name=key.name, kind=key.kind, default=value)
    return default_text(one).strip('"')


_QUANTITIES: Final[dict[str, Any]] = {
    "length": {
        "description": "a number and a unit; without a unit in that of `units`",
        "type": "string",
        "pattern": LENGTH_PATTERN,
        "examples": ["2 1/2 in", '1/4"', "3.5 mm", "12 cm"],
    },
    "share": {
        "description": "a percentage",
        "type": "string",
        "pattern": SHARE_PATTERN,
        "examples": ["3 %"],
    },
    "colour": {
        "description": "a CSS colour name or #rrggbb",
        "type": "string",
        "anyOf": [
            {"enum": sorted(webcolors.names())},
            {"pattern": "^#([0-9A-Fa-f]{3}|[0-9A-Fa-f]{6})$"},
            {"pattern": "^[A-Za-z]*[A-Z][A-Za-z]*$"},  # capitals are allowed in a name
        ],
        "examples": ["teal", "#2a6f77"],
    },
}
