"""The bytes of a file, or a message that names it."""

from pathlib import Path

from stitchpath.cli.terminal import plain
from stitchpath.errors import StitchpathError


def read_bytes(path: Path, *, most: int) -> bytes:
    """Return a file's first bytes.

    Raises:
        StitchpathError: There is no such file, or it cannot be read.
    """
    try:
        with path.open("rb") as stream:
            return stream.read(most)
    except FileNotFoundError:
        message = f"there is no file `{plain(path)}`\nhelp: check the name and the folder"
        raise StitchpathError(message) from None
    except IsADirectoryError:
        raise StitchpathError(f"`{plain(path)}` is a folder\nhelp: name a file in it") from None
    except PermissionError:
        message = f"`{plain(path)}` cannot be read: permission is missing"
        raise StitchpathError(f"{message}\nhelp: see who may read it") from None
    except (OSError, ValueError) as fault:  # ValueError: no path at all, as with a null byte
        message = f"`{plain(path)}` cannot be read: {getattr(fault, 'strerror', None) or fault}"
        raise StitchpathError(message) from fault
