"""How keys, values and limits are put into words, lengths in the project's unit."""

import math
from collections.abc import Sequence
from itertools import groupby
from typing import Any, Final

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.quantities import LONGEST_NAME
from stitchpath.project.fault import Path, key_path
from stitchpath.project.keys import Key
from stitchpath.units import Unit, format_length, parse_length

_FAR_OFF: Final = 0.05
"""A length that rounding to 1/16 in or 0.1 cm changes by a larger share is in mm alone."""
UNIT_NAMES: Final[dict[Unit, str]] = {"mm": "millimetres", "cm": "centimetres", "in": "inches"}
_KINDS: Final = {
    "length": "a length such as `3.5 mm` or `2 1/2 in`",
    "share": "a percentage such as `3 %`",
    "colour": "a CSS colour name such as `teal`, or `#rrggbb`",
    "name": f"text of 1 to {LONGEST_NAME} characters",
    "drawing": "the name of an SVG file such as `leaf.svg`",
    "design": "the name of a stitch file such as `heron.exp`",
    "gcode": "words of G-code such as `M3` or `G0 Z5`",
    "number": "a number",
    "whole": "a whole number",
    "switch": "true or false, without quotes",
    "table": "a table",
    "tables": "a list of tables",
}
_MANY: Final = {
    "layout": "a name of `stitchpath list layouts`",
    "check": "a name that `stitchpath check` shows in brackets",
}
"""Where choices are listed that are too many to be told."""
_RANGED: Final = frozenset({"length", "share", "number", "whole"})
_PLURALS: Final = {
    "length": "lengths", "choice": "names", "list": "points", "fields": "fields"
}  # fmt: skip
"""By a list's own name, or by what it holds; other lists within lists are of points."""
_EXAMPLES: Final = {
    "gap": '"6 mm"',
    "count": "3",
    "period": '"60 mm"',
    "amplitude": '"15 mm"',
    "text": '"Low Tide 26"',
    "height": '"40 mm"',
    "svg": '"leaf.svg"',
    "width": '"80 mm"',
    "file": '"heron.exp"',
    "columns": "3",
    "rows": "4",
    "pitch": '["80 mm", "90 mm"]',
    "at": "[150, 200]",
    "area": '{ border = "60 mm" }',
    "keep_out": "[{ footprint = true }]",
    "border": '"60 mm"',
    "fields": "[[130, 180], [200, 300]]",
    "ring": '["240 mm", "340 mm"]',
    "rectangle": "[0, 0, 200, 300]",
    "polygon": "[[0, 0], [200, 0], [100, 150]]",
    "thread": '{ top = "teal", bobbin = "linen" }',
    "load": "10",
    "thread_strength": "8",
}
"""How a key can be written that has no default to show it by."""


def length_text(length_mm: float, unit: Unit) -> str:
    """Return a length in a unit; in mm where the unit's usual fractions miss it.

    A limit is told exactly, so that a value typed as told is within it.

    Example:
        >>> [length_text(mm, "in") for mm in (50.8, 100.0, 0.3)]
        ['2 in', '100 mm (about 3 15/16 in)', '0.3 mm']
    """
    text = format_length(length_mm, unit)
    miss = abs(parse_length(text) - length_mm)
    if miss <= SAME_POINT_MM:
        return text
    exact = f"{length_mm:g} mm"
    if unit == "mm" or miss > _FAR_OFF * length_mm:
        return exact
    return f"{exact} (about {text})"


def exact_text(length_mm: float, unit: Unit) -> str:
    """Return a length in a unit where its usual fractions hit it, otherwise in mm.

    Example:
        >>> [exact_text(mm, "in") for mm in (50.8, 100.0)]
        ['2 in', '100 mm']
    """
    return length_text(length_mm, unit).partition(" (")[0]


def quantity_text(key: Key, quantity: float, unit: Unit) -> str:
    """Return a quantity of a key's kind: a length, a percentage or a plain number."""
    if key.kind == "length":
        return length_text(quantity, unit)
    return f"{quantity * 100:g} %" if key.kind == "share" else f"{quantity:g}"


def limits_text(key: Key, unit: Unit) -> str:
    """Return what a key's value must be, to stand after `must be`.

    Example:
        >>> from stitchpath.project.keys import find_key
        >>> limits_text(find_key(("machine", "speed")), "in")
        'between 50 and 3000'
    """
    if key.choices:
        return choices_text(key)
    if key.kind == "list":
        return f"a list of {_count_text(key)}"
    if key.kind in _RANGED:
        return f"between {between_text(key, unit)}"
    return (
        f"text of at most {key.high:g} characters" if key.kind == "text" else _KINDS[key.kind]
    )


def told_text(key: Key, unit: Unit) -> str:
    """Return what a key's value must be, a list's items included, as reference pages say it.

    Example:
        >>> from stitchpath.project.keys import find_key
        >>> told_text(find_key(("quilt", "quilting", 0, "area", "polygon")), "mm")
        'a list of 3 to 2000 points, each a list of 2 lengths between -10000 mm and 20000 mm'
    """
    limits, item = limits_text(key, unit), key.item
    if item is None:
        return limits
    if item.choices:
        return f"{limits}: {choices_text(item)}"
    each = [limits_text(one, unit) for one in key.items]
    if len(set(each)) > 1:
        runs = [f"{sum(1 for _ in group)} {text}" for text, group in groupby(each)]
        return f"{limits}: {', then '.join(runs)}"
    if item.item is not None:
        return f"{limits}, each {limits_text(item, unit)} {limits_text(item.item, unit)}"
    return f"{limits}, each {limits_text(item, unit)}"


def between_text(key: Key, unit: Unit) -> str:
    """Return a key's two limits joined by `and`."""
    return f"{quantity_text(key, key.low, unit)} and {quantity_text(key, key.high, unit)}"


def example_text(key: Key) -> str:
    """Return a value as it can be written: the default where it shows something.

    Example:
        >>> from stitchpath.project.keys import find_key
        >>> polygon = find_key(("quilt", "quilting", 0, "area", "polygon"))
        >>> example_text(find_key(("units",))), example_text(polygon.item)
        ('"mm"', '[150, 200]')
    """
    if key.kind == "list" and key.name == "polygon" and key.items:
        return _EXAMPLES["at"]  # one corner of it
    if key.required:
        return ""
    if key.default in (None, "", ()) or key.keys:
        return _EXAMPLES.get(key.name, "")
    return default_text(key)


def kind_text(key: Key) -> str:
    """Return what a key's value is, without limits."""
    return choices_text(key) if key.choices else _KINDS.get(key.kind, limits_text(key, "mm"))


def default_text(key: Key) -> str:
    """Return a key's default as it can be written in a project file, lengths in mm.

    Empty where there is none.

    Example:
        >>> from stitchpath.project.keys import find_key
        >>> default_text(find_key(("machine", "field"))), default_text(find_key(("units",)))
        ('["200 mm", "300 mm"]', '"mm"')
    """
    return written_text(key, key.default)


def written_text(key: Key, value: Any) -> str:  # noqa: ANN401 - any value of the model
    """Return a key's value as it can be written in a project file, lengths in mm."""
    if value is None:
        return ""
    if key.kind == "list":
        item = key.item or key
        return f"[{', '.join(_written(item, part) for part in value)}]"
    return _written(key, value)


def choices_text(key: Key) -> str:
    """Return a key's choices as a phrase; of many, where they are listed."""
    return _MANY.get(key.name) or any_of(key.choices)


def any_of(choices: Sequence[str]) -> str:
    """Return choices as a phrase.

    Example:
        >>> any_of(["mm", "cm", "in"])
        '`mm`, `cm` or `in`'
    """
    ticked = [f"`{choice}`" for choice in choices]
    return " or ".join((", ".join(ticked[:-1]), ticked[-1])) if len(ticked) > 1 else ticked[0]


def all_of(names: Sequence[str]) -> str:
    """Return names as a phrase.

    Example:
        >>> all_of(["gap", "count", "start"])
        '`gap`, `count` and `start`'
    """
    head, _, tail = any_of(names).rpartition(" or ")
    return f"{head} and {tail}" if head else tail


def table_header(path: Path, kind: str) -> str:
    """Return how a table is opened in a file: `[pocket.seam]`, `[[quilt.quilting]]`."""
    name = ".".join(part for part in path if isinstance(part, str))
    return f"[[{name}]]" if kind == "tables" else f"[{name}]"


def inside(path: Path) -> str:
    """Return where a key stands: `in quilt.quilting[1]`, or `at the top of the file`."""
    return f"in `{key_path(path)}`" if path else "at the top of the file"


def _written(key: Key, value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int | float):
        text = quantity_text(key, value, "mm") if key.kind != "length" else f"{value:g} mm"
        return f'"{text}"' if key.kind in {"length", "share"} else text
    return f'"{value}"'


def _count_text(key: Key) -> str:
    few, many = max(key.low, 0), key.high
    things = "tables"
    if key.item is not None:
        own = key.name if key.item.kind == "list" else ""
        things = _PLURALS.get(own, _PLURALS[key.item.kind])
    return f"{few:g} {things}" if few == many else f"{few:g} to {many:g} {things}"


def rounded(count: float) -> str:
    """Return a count to two figures: an estimate that does not look like more.

    Example:
        >>> rounded(13_499_000)
        '13,000,000'
    """
    digits = max(len(str(math.floor(count))) - 2, 0)
    return f"{round(count, -digits):,.0f}"
