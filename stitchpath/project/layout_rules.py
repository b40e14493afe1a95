"""Rules on a layout's keys: that it reads what is written, and has what it needs."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from stitchpath.layouts import find_layout
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilting
from stitchpath.model.shape import Shape
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.placed import laid_specs, shapes_of
from stitchpath.project.wording import all_of

COMMON_KEYS: Final = frozenset({
    "layout", "angle", "margin", "area", "keep_out", "fit", "fit_limit", "stitch_length",
    "thread",
})  # fmt: skip
"""Keys that every layout takes."""

_HALF_TURN: Final = 180.0


def unused_keys(project: Project, data: Mapping[str, Any]) -> Iterator[Fault]:
    """Every key written for a layout or a shape is one that it reads.

    Args:
        project: What was read.
        data: The file's data, which tells a written key from a default.
    """
    for path, spec, _ in laid_specs(project):
        written = written_at(data, path)
        layout = find_layout(spec.layout)
        reads = layout.keys
        common = COMMON_KEYS if layout.turns else COMMON_KEYS - {"angle"}
        for name in written:
            if name not in common and name not in reads and not _is_plain_start(name, spec):
                yield _unused(
                    (*path, name), f"the layout `{spec.layout}`", [*{*reads} - COMMON_KEYS]
                )
        for place, shape in shapes_of(path, spec):
            yield from unused_in_shape(place, shape, data)


def unused_in_shape(path: Path, shape: Shape, data: Mapping[str, Any]) -> Iterator[Fault]:
    """A shape that is no drawing has no place and width of its own."""
    if shape.svg is None:
        for name in ("at", "width"):
            if name in written_at(data, path):
                yield _unused((*path, name), "a shape without `svg`", [])


def angles_are_taken(project: Project) -> Iterator[Fault]:
    """A layout that takes certain angles alone is given one of them."""
    for path, spec, _ in laid_specs(project):
        angles = find_layout(spec.layout).angles
        if angles and not any((spec.angle - angle) % _HALF_TURN == 0 for angle in angles):
            allowed = " or ".join(f"{angle:g}" for angle in angles)
            yield Fault(
                code="angle-not-taken",
                path=(*path, "angle"),
                message=f"the layout `{spec.layout}` does not take the angle {spec.angle:g}",
                label=f"must be {allowed}",
                help="the layout `parallel` takes any angle",
            )


def _is_plain_start(name: str, spec: Quilting) -> bool:
    """Tell whether a key only says what is so anyway: where any layout starts."""
    return name == "start" and spec.start == "centre"


def _unused(path: Path, who: str, reads: list[str]) -> Fault:
    own = f"it reads {all_of(sorted(reads))}, and what all layouts do" if reads else ""
    return Fault(
        code="unused-key",
        path=path,
        message=f"{who} does not read `{key_path(path)}`",
        label="has no effect here",
        notes=(own,) if own else (),
        help="leave it out, or choose a layout that reads it" if reads else "leave it out",
        at="key",
    )


def written_at(data: Mapping[str, Any], path: Path) -> Mapping[str, Any]:
    """Return the table at a path, or an empty one where it is not written."""
    value: Any = data
    for part in path:
        if isinstance(part, int):
            value = value[part] if part < len(value) else {}
        else:
            value = value.get(part, {})
    found: Mapping[str, Any] = value
    return found
