"""Finds the layouts: every module of this package that is not the machinery of it."""

from typing import Final

from stitchpath.layouts._layout import Layout
from stitchpath.listing import member, member_names

_ROOM: Final = "stitchpath.layouts"


def layout_names() -> tuple[str, ...]:
    """Return the names of all layouts, in alphabetical order."""
    return member_names(_ROOM)


def find_layout(name: str) -> Layout:
    """Return a layout by its name.

    Raises:
        ValueError: There is no such layout (a caller's bug; `project` checks user input).
    """
    layout: Layout = member(_ROOM, name).LAYOUT
    return layout
