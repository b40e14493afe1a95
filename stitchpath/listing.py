"""What a room holds: the members of one whose file listing is its feature list, and its offers.

A member is a module of the package whose name does not begin with an underscore; it is called
by its file's name, with `-` for `_`. An offer is a name that other rooms take from the package.
"""

import pkgutil
import sys
from collections.abc import Callable, Mapping
from functools import cache
from importlib import import_module
from types import ModuleType
from typing import Any


@cache
def member_names(package: str) -> tuple[str, ...]:
    """Return the names of a package's members, in alphabetical order.

    Example:
        >>> "batting-gap" in member_names("stitchpath.checks")
        True
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


def offers(package: str, homes: Mapping[str, str]) -> Callable[[str], Any]:
    """Return a package's `__getattr__`: what it offers is imported when first asked for.

    So a command does not wait for what other commands need. Type checkers do not follow it:
    the package imports the same names under `TYPE_CHECKING`.

    Args:
        package: Its name.
        homes: For each name that it offers, the module in it that has it; of another name,
            since a module that is imported takes its name in the package.

    Source: Python Enhancement Proposal 562, module `__getattr__`.
    """

    def find(name: str) -> Any:  # noqa: ANN401 - whatever is offered
        if name not in homes:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        found = getattr(import_module(f"{package}.{homes[name]}"), name)
        setattr(sys.modules[package], name, found)  # next time nobody asks here
        return found

    return find
