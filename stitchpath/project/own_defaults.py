"""What a layout takes for a key that a project file leaves out."""

from collections.abc import Mapping
from typing import Any

from stitchpath.layouts import find_layout, layout_names


def with_own_spacing(data: Mapping[str, Any]) -> dict[str, Any]:
    """Return a file's data with the spacing of each layout that leaves it out.

    What is not of the form it should be is left as it is, for validation to find.

    Example:
        >>> with_own_spacing({"quilt": {"quilting": [{"layout": "matchstick"}]}})
        {'quilt': {'quilting': [{'layout': 'matchstick', 'spacing': '4.5 mm'}]}}
    """
    return {
        name: {**table, "quilting": [_spaced(layout) for layout in table["quilting"]]}
        if isinstance(table, Mapping) and isinstance(table.get("quilting"), list)
        else table
        for name, table in data.items()
    }


def _spaced(layout: object) -> object:
    if not isinstance(layout, Mapping) or "spacing" in layout:
        return layout
    name = layout.get("layout", "")
    if name not in layout_names():
        return layout
    return {**layout, "spacing": f"{find_layout(name).spacing_mm} mm"}
