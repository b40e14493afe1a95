"""A progress bar on a terminal while there is much to do."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

SLOW_HOOPINGS: Final = 20
"""From so many hoopings on a progress bar is shown."""


@contextmanager
def progress(what: str, total: int, *, from_: int) -> Iterator[Callable[[int], None]]:
    """Show a bar on a terminal, and give what moves it by so many.

    Args:
        what: What is counted, such as `files`.
        total: How many there are.
        from_: Of fewer no bar is shown.
    """
    if total < from_ or not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console  # noqa: PLC0415 - slow to import, and seldom needed
    from rich.progress import Progress  # noqa: PLC0415

    # drawn when it moves, not by a thread of its own: beside one, work is not shared by forking
    with Progress(console=Console(stderr=True), transient=True, auto_refresh=False) as bar:
        task = bar.add_task(what, total=total)
        yield lambda made: bar.update(task, advance=made, refresh=True)
