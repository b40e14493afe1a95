"""How hooping after hooping is made, or several at a time."""

from collections.abc import Callable, Iterable, Sequence
from typing import Protocol, TypeVar

_Thing = TypeVar("_Thing")
_Made = TypeVar("_Made")


class Each(Protocol):
    """What makes something of each of several things, in order: `map`, or several processes."""

    def __call__(
        self, make: Callable[[_Thing], _Made], things: Sequence[_Thing], /
    ) -> Iterable[_Made]:
        """Return what is made of each thing; none depends on another."""
        ...
