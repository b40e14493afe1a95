"""Reading a project's drawings: only from its own folder, or below it."""

from pathlib import Path, PureWindowsPath

from stitchpath.cli.beside import bytes_beside
from stitchpath.model.drawing import Drawing
from stitchpath.project import Load


def drawing_loader(folder: Path) -> Load[Drawing]:
    """Return what reads the drawings of a project: SVG files in its folder, or below it.

    It raises a ValueError that says why a name cannot be read: a path from the root, `..`, a
    link that leads out of the folder, no file, no drawing.
    """
    home = folder.resolve()

    def load(name: str) -> Drawing:
        if PureWindowsPath(name).suffix.lower() != ".svg":
            raise ValueError("a drawing's name ends in `.svg`")
        from stitchpath.project import read_drawing  # noqa: PLC0415 - seldom needed
        from stitchpath.project.svg_gate import MOST_BYTES  # noqa: PLC0415 - with the above

        data = bytes_beside(home, name, what="a drawing", most=MOST_BYTES + 1)
        return read_drawing(data, name)

    return load
