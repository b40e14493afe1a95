"""Values that are none of their key's choices."""

from collections.abc import Iterator, Mapping
from typing import Any

from stitchpath.project.fault import Fault, Path, clipped, key_path
from stitchpath.project.keys import Key, project_key
from stitchpath.project.nearest import nearest
from stitchpath.project.wording import choices_text


def choice_faults(data: Mapping[str, Any], table: Key | None = None) -> Iterator[Fault]:
    """Yield a fault for each unknown name of a layout, a format or a bobbin.

    Works on the data as parsed, so that these are found along with whatever else is wrong.
    Values that are not text are left to pydantic.
    """
    yield from _unknown_names(data, table or project_key(), ())


def not_a_choice(path: Path, key: Key, value: str) -> Fault:
    """Return the fault of a value that is none of a key's choices."""
    near = nearest(value, key.choices)
    return Fault(
        code="not-a-choice",
        path=path,
        message=f"`{key_path(path)}` cannot be `{clipped(value)}`",
        label=f"must be {choices_text(key)}",
        help=f"the nearest choice is `{near}`" if near else "take one of the choices",
    )


def _unknown_names(value: object, key: Key, path: Path) -> Iterator[Fault]:
    if isinstance(value, Mapping):
        for inner in key.keys:
            if inner.name in value:
                yield from _unknown_names(value[inner.name], inner, (*path, inner.name))
    elif isinstance(value, list):
        most = int(min(key.high, len(value)))  # of more, only the number is told
        for number, item in enumerate(value[:most]):
            yield from _unknown_names(item, key.item or key, (*path, number))
    elif isinstance(value, str) and key.registered and value not in key.choices:
        yield not_a_choice(path, key, value)
