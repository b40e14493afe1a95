"""What targets begin with, small, to be soon read, and the words it is made of."""

import re
from collections.abc import Iterable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from stitchpath.catalog.formats import FORMATS
from stitchpath.catalog.line_formats import LINE_FORMATS
from stitchpath.cli.refits import keep_refit, refits_path
from stitchpath.hoopings.refit import fit_hooping, make_refit
from stitchpath.layouts import layout_names
from stitchpath.model.plan import Plan
from stitchpath.pipeline import plan
from stitchpath.project import read_project, starter_project
from stitchpath.project.keys import all_keys

_DESIGNS: Final = Path(__file__).parents[2] / "designs"


def _files(paths: Iterable[Path]) -> tuple[bytes, ...]:
    return tuple(path.read_bytes() for path in sorted(paths))


def _bare(text: str) -> bytes:
    """Return a project with every key of the starter, without what is said of them."""
    said = re.sub(r"(?m)^#(?=[a-z_]+ = )", "", text)
    lines = (re.sub(r" +# .*", "", line) for line in said.splitlines())
    return "\n".join(line for line in lines if line and not line.startswith("#")).encode()


_MORE: Final = {
    "text": 'text = "ab"',
    "outline": "margin = 9",
    "motif": 'svg = "a.svg", width = 20',
}
"""What a layout has in the place of a spacing."""


def _with_layout(name: str) -> bytes:
    line = f'layout = "{name}", {_MORE.get(name, "spacing = 20")}'
    return f"quilt = {{ width = 90, length = 70, quilting = [{{ {line} }}] }}\n".encode()


def _with_format(name: str) -> bytes:
    return f"""quilt = {{ width = 90, length = 70, quilting = [
  {{ layout = "parallel", spacing = 30 }} ] }}
machine = {{ field = [100, 100], formats = ["{name}"] }}
""".encode()


PROJECTS: Final = (
    *_files(_DESIGNS.glob("*.toml")),
    *(_bare(starter_project(unit)) for unit in ("mm", "in")),
)
"""As makers write them."""

WITH_POCKET: Final = b"""quilt = { width = 120, length = 90, quilting = [
  { layout = "crosshatch", spacing = 30 } ] }
pocket = { width = 60, length = 50 }
machine = { field = [100, 100], formats = ["dst"] }
"""
WITH_LAYOUTS: Final = tuple(map(_with_layout, layout_names()))
WITH_FORMATS: Final = tuple(map(_with_format, (*FORMATS, *LINE_FORMATS)))
PROJECT_WORDS: Final = (
    *dict.fromkeys(str(path[-1]).encode() for path, _ in all_keys()),
    *(name.encode() for name in layout_names()),
    *(b"[[", b"]]", b"= ", b'"""', b"'''", b'"1/4 in"', b"1e999", b"nan", b"-0", b"true"),
    *(b"{ ", b" }", b"0x", b"1979-05-27", b'"centre"', b'"edge"', b"mm", b"cm", b"in", b"%"),
)

DRAWINGS: Final = _files(_DESIGNS.rglob("*.svg"))
DRAWING_WORDS: Final = (
    *(b"<path d=", b"<g>", b"</g>", b"<use href=", b"<svg ", b"<rect ", b"<symbol "),
    *(b"transform=", b"matrix(", b"rotate(", b"skewX(", b"viewBox=", b"style=", b"class="),
    *(b"preserveAspectRatio=", b"id=", b"display:none", b"<!DOCTYPE", b"&#0;", b"<![CDATA["),
    *(b"A1,1,0,0,1,", b"1e9", b"1e400", b"nan", b"em", b"%", b"mm", b"points=", b"#s"),
    b"<style>",
)


def _refits(planned: Plan) -> bytes:
    """Return the file of refits of a plan's first hooping."""
    stage = planned.stages[0]
    hooping = stage.hoopings[0].hooping
    found = {mark.name: (mark.field[0] + 1, mark.field[1] - 2) for mark in hooping.marks}
    fit = fit_hooping(hooping, found, may_stretch=True)
    with TemporaryDirectory() as folder:
        project = Path(folder) / "a.toml"
        keep_refit(project, make_refit(stage.name, hooping, fit, file="a.dst"))
        return refits_path(project).read_bytes()


REFITTED: Final = plan(read_project(WITH_POCKET.decode()))
"""A plan that refits are of."""
REFITS: Final = (
    _refits(REFITTED),
    b"""{"schema": "stitchpath-refits-1", "refits": [{
"stage": "quilt", "hooping": 1, "file": "a.dst", "field": [200, 300],
"planned_centre": [1, 2], "planned_turn": 90,
"centre": [1.5, 2], "turn": 90.2, "scale": 1, "marks": [
{"name": "A", "piece": [1, 2], "field": [3, 4]}]}]}""",
)
REFIT_WORDS: Final = (
    *(b"schema", b"stitchpath-refits-1", b"refits", b"stage", b"hooping", b"file", b"field"),
    *(b"planned_centre", b"planned_turn", b"centre", b"turn", b"scale", b"marks", b"name"),
    *(b"piece", b"quilt", b"pocket", b"seam", b"null", b"true", b"NaN", b"-Infinity", b"[]"),
    *(b"{}", b'""', b'"\\u0000"', b'"\\ud800"', b"[[", b"]]", b": ", b", ", b"1E400", b"-0.0"),
)
