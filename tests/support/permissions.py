"""Being somebody whom permissions bind."""

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path


@contextlib.contextmanager
def as_somebody() -> Iterator[None]:
    """Be somebody whom permissions bind; they do not bind root."""
    user = os.geteuid()
    if user == 0:
        os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(user)


def open_to_all(folder: Path) -> None:
    for part in (folder, *folder.parents[:3]):
        part.chmod(0o755)
