"""Files that a project names: only from its own folder, or below it."""

from pathlib import Path, PureWindowsPath


def bytes_beside(home: Path, name: str, *, what: str, most: int) -> bytes:
    """Return the first bytes of a file that a project names.

    Args:
        home: The project's folder, with no links in its path.
        name: What the project calls it.
        what: What it is to be, such as `a drawing`.
        most: How many bytes to read.

    Raises:
        ValueError: A path from the root, `..`, a link that leads out of the folder, no file, or
            one that cannot be read; the message says which.
    """
    given = PureWindowsPath(name)  # knows both kinds of slashes, and drives
    if given.anchor or ".." in given.parts:
        raise ValueError(f"{what} is named from the project's folder, without `/` or `..`")
    try:
        path = (home / name).resolve(strict=True)
        if not path.is_relative_to(home):
            raise ValueError("the name leads out of the project's folder")
        if not path.is_file():
            raise ValueError("this is no file")
        with path.open("rb") as stream:
            return stream.read(most)
    except (FileNotFoundError, NotADirectoryError):
        raise ValueError("there is no such file in the project's folder") from None
    except (OSError, RuntimeError) as fault:  # RuntimeError: links that lead to each other
        reason = getattr(fault, "strerror", None) or "its links lead nowhere"
        raise ValueError(f"the file cannot be read: {reason}") from None
