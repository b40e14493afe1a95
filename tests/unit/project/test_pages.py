"""The pages on project files, held against the program."""

import re
from pathlib import Path as FilePath
from typing import Final, get_args

import pytest

from stitchpath.errors import ProjectError
from stitchpath.model.design import DesignFile
from stitchpath.model.drawing import Drawing
from stitchpath.model.quilt import Quilting
from stitchpath.project import decode_project, read_project
from stitchpath.project.fault import Code, Path
from stitchpath.project.keys import Key, all_keys, find_key, project_key
from stitchpath.project.svg_drawing import read_drawing
from stitchpath.project.wording import default_text, told_text
from tests.support.designs import stitched

DOCS: Final = FilePath(__file__).parents[3] / "docs"
GALLERY: Final = DOCS.parent / "designs" / "gallery"
ERRORS: Final = (DOCS / "errors.md").read_text(encoding="utf-8")
REFERENCE: Final = (DOCS / "project-file.md").read_text(encoding="utf-8")
SECTIONS: Final = dict(re.findall(r"(?ms)^## `([a-z0-9-]+)`\n(.*?)(?=^## |\Z)", ERRORS))


ON_ONE_LINE: Final = {"thread", "area", "keep_out"}
"""Tables that stand on a line of the table around them."""


def load(name: str) -> Drawing:
    """Read a drawing of the gallery, or one that says its own text."""
    if not (GALLERY / name).exists():
        raise ValueError(f"there is no file `{name}`")
    return read_drawing((GALLERY / name).read_bytes(), name)


def load_design(name: str) -> DesignFile:
    """Give a small design, whatever it is called but for one name."""
    if name == "egret.exp":
        raise ValueError(f"there is no file `{name}`")
    return stitched(source=name)


def examples(section: str) -> list[bytes]:
    """Return the bytes of a section's files, made as stands after `toml`."""
    files: list[bytes] = []
    for how, text in re.findall(r"(?ms)^```toml ?(.*?)\n(.*?)^```$", section):
        times = int(how.partition("x")[2]) if re.search(r"x\d", how) else 1
        if how.startswith("commas"):
            whole = re.sub(r"(?m)^.*,\n", lambda line: line[0] * times, text)  # noqa: B023 - called at once
        else:
            whole = text * times
        files.append(whole.encode("latin-1" if how == "latin-1" else "utf-8"))
    return files


def test_every_code_has_a_section_and_every_section_a_code() -> None:
    assert sorted(SECTIONS) == sorted(get_args(Code))


@pytest.mark.parametrize("code", SECTIONS)
def test_failing_file_has_its_problem_and_fixed_file_has_none(code: str) -> None:
    failing, fixed = examples(SECTIONS[code])
    with pytest.raises(ProjectError) as caught:
        read_project(decode_project(failing), load=load, load_design=load_design)
    codes = {problem.code for problem in caught.value.problems}
    assert code in codes
    assert codes == {code} or code == "more-problems"
    mended = read_project(decode_project(fixed), load=load, load_design=load_design)
    assert mended.quilt.width > 0


def tables_of(heading: str) -> list[Path]:
    """Return the tables a heading of the reference page is about."""
    if heading == "At the top of the file":
        return [()]
    names, _, homes = heading.rpartition(" in ")
    inner = [_with_items((name,)) for name in re.findall(r"`([a-z_]+)`", names)]
    outer = re.findall(r"`\[*([a-z.]+)\]*`", homes)
    paths = [_with_items(tuple(name.split("."))) for name in outer]
    if not inner:
        return paths
    tables = [(*path, *name) for path in paths for name in inner]
    return [table for table in tables if find_key(table)]  # a design has no keep_out


def _with_items(path: Path) -> Path:
    lists = {"quilting", "design", "keep_out", "silence"}
    return tuple(part for name in path for part in ((name, 0) if name in lists else (name,)))


def row_of(key: Key, table: Key) -> str:
    if key.required or key.keys:
        default = "needed" if key.required else ""
    elif key.default is None:
        own = table.table is Quilting and key.kind != "drawing"
        default = "the layout's own" if own else ""
    else:
        default = f"`{default_text(key)}`"
    return f"| `{key.name}` | {key.description} | {default} | {told_text(key, 'mm')} |"


def test_reference_page_has_every_key_as_the_model_has_it() -> None:
    told: set[Path] = set()
    for heading, body in re.findall(r"(?ms)^## (.*?)\n(.*?)(?=^## |\Z)", REFERENCE):
        rows = [line for line in body.splitlines() if line.startswith("| `")]
        if not rows:
            continue
        for path in tables_of(heading):
            table = find_key(path) if path else project_key()
            assert table is not None, heading
            keys = [key for key in table.keys if not key.keys or key.name in ON_ONE_LINE]
            assert rows == [row_of(key, table) for key in keys], heading
            told |= {(*path, key.name) for key in keys}
    assert told == {path for path, key in all_keys() if not key.keys or key.name in ON_ONE_LINE}
