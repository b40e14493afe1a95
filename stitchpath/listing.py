"""The members of a room whose file listing is its feature list.

A member is a module of the package whose name does not begin with an underscore; it is called
by its file's name, with `-` for `_`.
"""

import pkgutil
from functools import cache
from importlib import import_module
from types import ModuleType


@cache
def member_names(package: str) -> tuple[str, ...]:
    """Return the names of a package's members, in alphabetical order.

    Example:
        >>> member_names("stitchpath.checks")[:2]
        ('batting-gap', 'cautions')
    """
    files = (module.name for module in pkgutil.iter_modules(import_module(package).__path__))
    return tuple(sorted(name.replace("_", "-") for name in files if not name.startswith("_")))


def member(package: str, name: str) -> ModuleType:
    """Return a member's module.

    Raises:
        ValueError: There is no such member (a caller's bug; `project` checks user input).
    """
    if name not in member_names(package):
        raise ValueError(f"{package} has no member {name!r}")
    return import_module(f"{package}.{name.replace('-', '_')}")
