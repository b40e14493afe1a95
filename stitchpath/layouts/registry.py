"""Finds the layouts: every module of this package that has a `LAYOUT`, by its file's name."""

import pkgutil
from functools import cache
from importlib import import_module
from typing import Final

import stitchpath.layouts as package
from stitchpath.layouts.layout import Layout

_OTHER_FILES: Final = frozenset({"layout", "registry", "lay"})


@cache
def layout_names() -> tuple[str, ...]:
    """Return the names of all layouts, in alphabetical order."""
    files = (module.name for module in pkgutil.iter_modules(package.__path__))
    return tuple(sorted(name.replace("_", "-") for name in files if name not in _OTHER_FILES))


def find_layout(name: str) -> Layout:
    """Return a layout by its name.

    Raises:
        ValueError: There is no such layout (a caller's bug; `project` checks user input).
    """
    if name not in layout_names():
        raise ValueError(f"no layout is called {name!r}")
    layout: Layout = import_module(f"{package.__name__}.{name.replace('-', '_')}").LAYOUT
    return layout
