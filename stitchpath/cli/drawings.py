"""Reading a project's drawings: only from its own folder, or below it."""

from pathlib import Path, PureWindowsPath

from stitchpath.cli.beside import bytes_beside
from stitchpath.model.drawing import Drawing
from stitchpath.project import MOST_DRAWING_BYTES, Load, read_drawing


def drawing_loader(folder: Path) -> Load[Drawing]:
    """Return what reads the drawings of a project: SVG files in its folder, or below it.

    It raises a ValueError that says why a name cannot be read: a path from the root, `..`, a
    link that leads out of the folder, no file, no drawing.
    """
    home = folder.resolve()

    def load(name: str) -> Drawing:
        if PureWindowsPath(name).suffix.lower() != ".svg":
            raise ValueError("a drawing's name ends in `.svg`")
        data = bytes_beside(home, name, what="a drawing", most=MOST_DRAWING_BYTES + 1)
        return read_drawing(data, name)

    return load
