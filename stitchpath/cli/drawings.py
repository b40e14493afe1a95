"""Reading a project's drawings: only from its own folder, or below it."""

from pathlib import Path, PureWindowsPath

from stitchpath.model.drawing import Drawing
from stitchpath.project import Load


def drawing_loader(folder: Path) -> Load:
    """Return what reads the drawings of a project: SVG files in its folder, or below it.

    It raises a ValueError that says why a name cannot be read: a path from the root, `..`, a
    link that leads out of the folder, no file, no drawing.
    """
    home = folder.resolve()

    def load(name: str) -> Drawing:
        given = PureWindowsPath(name)  # knows both kinds of slashes, and drives
        if given.anchor or ".." in given.parts:
            raise ValueError(
                "a drawing is named from the project's folder, without `/` or `..`"
            )
        if given.suffix.lower() != ".svg":
            raise ValueError("a drawing's name ends in `.svg`")
        from stitchpath.project import read_drawing  # noqa: PLC0415 - seldom needed

        return read_drawing(_bytes_below(home, name), name)

    return load


def _bytes_below(home: Path, name: str) -> bytes:
    from stitchpath.project.svg_gate import MOST_BYTES  # noqa: PLC0415 - with the above

    try:
        path = (home / name).resolve(strict=True)
        if not path.is_relative_to(home):
            raise ValueError("the name leads out of the project's folder")
        if not path.is_file():
            raise ValueError("this is no file")
        with path.open("rb") as stream:
            return stream.read(MOST_BYTES + 1)
    except (FileNotFoundError, NotADirectoryError):
        raise ValueError("there is no such file in the project's folder") from None
    except (OSError, RuntimeError) as fault:  # RuntimeError: links that lead to each other
        reason = getattr(fault, "strerror", None) or "its links lead nowhere"
        raise ValueError(f"the file cannot be read: {reason}") from None
