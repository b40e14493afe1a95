"""What every command says, word by word: golden texts in tests/golden/cli.

Rewritten by `pytest tests/cli --update-golden`; read the diff as a maker would.
"""

import json
from pathlib import Path

import pytest

from stitchpath.layouts import find_layout, layout_names
from tests.conftest import Golden
from tests.support.command_line import Shell

_GOLDEN = Path(__file__).parents[1] / "golden" / "cli"

_REFIT = "stitchpath refit rug.toml --stage seam --hooping 1 --out again.dst"
_WIDE = "stitchpath refit wide.toml --stage quilt --hooping 1 --out again.dst"
_NO_FILES = {
    "bare": ("stitchpath", 2),
    "help": ("stitchpath --help", 0),
    "help-new": ("stitchpath new --help", 0),
    "help-check": ("stitchpath check --help", 0),
    "help-make": ("stitchpath make --help", 0),
    "help-preview": ("stitchpath preview --help", 0),
    "help-count": ("stitchpath count --help", 0),
    "help-inspect": ("stitchpath inspect --help", 0),
    "help-rewrite": ("stitchpath rewrite --help", 0),
    "help-corner": ("stitchpath corner --help", 0),
    "help-refit": ("stitchpath refit --help", 0),
    "help-list": ("stitchpath list --help", 0),
    "help-schema": ("stitchpath schema --help", 0),
    "version": ("stitchpath --version", 0),
    "list-layouts": ("stitchpath list layouts", 0),
    "list-fields": ("stitchpath list fields", 0),
    "list-battings": ("stitchpath list battings", 0),
    "list-formats": ("stitchpath list formats", 0),
    "list-bobbins": ("stitchpath list bobbins", 0),
    "list-papers": ("stitchpath list papers", 0),
    "list-threads": ("stitchpath list threads", 0),
    "list-papers-json": ("stitchpath list papers --json", 0),
    "new": ("stitchpath new my-throw.toml", 0),
    "new-over-a-file": ("stitchpath new rug.toml", 1),
    "check": ("stitchpath check rug.toml", 0),
    "check-warning": ("stitchpath check wide.toml", 0),
    "check-silenced": ("stitchpath check hushed.toml", 0),
    "check-error": ("stitchpath check misfit.toml", 1),
    "check-problems": ("stitchpath check wrong.toml", 1),
    "check-problems-json": ("stitchpath check wrong.toml --json", 1),
    "check-json": ("stitchpath check misfit.toml --json", 1),
    "check-nothing": ("stitchpath check nothing.toml", 1),
    "make": ("stitchpath make rug.toml --out 'my rug'", 0),
    "make-warning": ("stitchpath make wide.toml --out wide", 0),
    "make-error": ("stitchpath make misfit.toml --out misfit", 1),
    "make-json": ("stitchpath make rug.toml --out rug --json", 0),
    "make-nothing": ("stitchpath make nothing.toml --out nothing", 1),
    "make-into-a-file": ("stitchpath make rug.toml --out notes.txt", 1),
    "preview": ("stitchpath preview rug.toml --out rug.svg --stage seam --hooping 2", 0),
    "preview-other-kind": ("stitchpath preview rug.toml --out rug.gif", 2),
    "preview-booklet": ("stitchpath preview rug.toml --out rug.html", 0),
    "preview-booklet-of-a-stage": ("stitchpath preview rug.toml --out a.html --stage seam", 2),
    "preview-too-long-for-pdf": ("stitchpath preview huge.toml --out huge.pdf", 1),
    "preview-no-such-stage": ("stitchpath preview rug.toml --out rug.svg --stage quilt", 1),
    "preview-no-such-hooping": ("stitchpath preview rug.toml --out rug.svg --hooping 3", 2),
    "preview-nothing": ("stitchpath preview nothing.toml --out rug.svg", 1),
    "corner": ("stitchpath corner --out corner.dst", 0),
    "corner-json": ("stitchpath corner --out corner.svg --hand right --json", 0),
    "corner-misfit": ("stitchpath corner --out corner.dst --side 50 --field 20x20", 1),
    "refit": (f"{_REFIT} --mark A=-42.1,-36.2 --mark b=37.7,44.1", 0),
    "refit-json": (f"{_REFIT} --mark A=-41.25,-37.5 --mark B=38.75,42.5 --json", 0),
    "refit-one-mark": (f"{_REFIT} --mark A=-38,-37", 2),
    "refit-no-mark": ("stitchpath refit rug.toml --stage seam --hooping 1 --out x.dst", 2),
    "refit-other-mark": (f"{_REFIT} --mark A=-38,-37 --mark Z=41,42", 2),
    "refit-mark-twice": (f"{_REFIT} --mark A=-38,-37 --mark A=41,42", 2),
    "refit-equal-marks": (f"{_REFIT} --mark A=-38,-37 --mark B=-38,-37", 2),
    "refit-no-number": (f"{_REFIT} --mark A=nan,-37 --mark B=41,42", 2),
    "refit-half-a-place": (f"{_REFIT} --mark A=-38 --mark B=41,42", 2),
    "refit-outside": (f"{_REFIT} --mark A=-38,-37 --mark B=41,420", 2),
    "refit-stretch": (f"{_REFIT} --mark A=-41.25,-37.5 --mark B=40,43.7", 1),
    "refit-other-kind": (f"{_REFIT.replace('dst', 'svg')} --mark A=1,2 --mark B=3,4", 2),
    "refit-no-such-stage": (_REFIT.replace("seam", "quilt") + " --mark A=1,2 --mark B=3,4", 1),
    "refit-no-such-hooping": (_REFIT.replace("1", "7") + " --mark A=1,2 --mark B=3,4", 2),
    "refit-past-the-field": (
        f"{_WIDE} --mark A=-90,142 --mark B=90,-118",
        1,
    ),
    "count-project": ("stitchpath count rug.toml", 0),
    "count-error": ("stitchpath count misfit.toml", 1),
    "count-odd-name": ("stitchpath count notes.txt", 2),
    "count-evening": ("stitchpath count rug.toml --evening '15 min'", 0),
    "count-long-evening": ("stitchpath count rug.toml --evening '25 h'", 2),
    "count-odd-evening": ("stitchpath count rug.toml --evening 2:30", 2),
    "count-timed-project": ("stitchpath count rug.toml --timed 12:30", 2),
    "no-command": ("stitchpath mkae rug.toml", 2),
    "no-option": ("stitchpath make rug.toml --ouf rug", 2),
    "no-value": ("stitchpath make rug.toml --out", 2),
    "missing-option": ("stitchpath make rug.toml", 2),
    "missing-argument": ("stitchpath check", 2),
    "missing-choice": ("stitchpath list", 2),
    "wrong-choice": ("stitchpath new x.toml --units yards", 2),
    "too-much": ("stitchpath check rug.toml rug.toml", 2),
    "switch-with-value": ("stitchpath check rug.toml --json=yes", 2),
}
_WITH_FILES = {
    "count-files": ("stitchpath count rug/seam/01.dst upper.DST --bobbin A", 0),
    "count-evening-of-a-file": ("stitchpath count upper.DST --evening '2 h'", 2),
    "count-timed": ("stitchpath count upper.DST --timed 0:30", 0),
    "count-timed-too-short": ("stitchpath count upper.DST --timed '20 s'", 2),
    "count-timed-too-long": ("stitchpath count upper.DST --timed 1:00:00", 2),
    "count-timed-odd": ("stitchpath count upper.DST --timed 12", 2),
    "count-json": ("stitchpath count upper.DST rug.toml --json", 0),
    "count-mixed": ("stitchpath count upper.DST rug.toml rug/seam/02.xxx", 0),
    "count-cut-short": ("stitchpath count short.dst", 1),
    "count-empty": ("stitchpath count empty.exp", 1),
    "inspect": ("stitchpath inspect rug/seam/01.dst --field 60x60", 0),
    "rewrite": ("stitchpath rewrite upper.DST --out again.pes", 0),
    "rewrite-divided": ("stitchpath rewrite upper.DST --field 20x20 --out parts", 0),
    "inspect-folder": ("stitchpath inspect rug --field 20x30", 0),
    "inspect-named-wrongly": ("stitchpath inspect named-wrongly.pes short.dst", 1),
    "check-stitch-file": ("stitchpath check upper.DST", 1),
}


@pytest.mark.parametrize("name", _NO_FILES)
def test_command_says_what_the_golden_text_says(
    name: str, shell: Shell, golden: Golden
) -> None:
    line, code = _NO_FILES[name]
    ran = shell.run(line)
    golden.check(ran.screen, _GOLDEN / f"{name}.txt")
    assert ran.code == code


@pytest.mark.parametrize("name", _WITH_FILES)
def test_command_on_made_files_says_what_the_golden_text_says(
    name: str, with_files: Shell, golden: Golden
) -> None:
    line, code = _WITH_FILES[name]
    ran = with_files.run(line)
    golden.check(ran.screen, _GOLDEN / f"{name}.txt")
    assert ran.code == code


def test_every_golden_text_has_its_command() -> None:
    assert {path.stem for path in _GOLDEN.glob("*.txt")} == _NO_FILES.keys() | _WITH_FILES


def test_order_of_sewing_is_told_for_someone_at_the_machine(
    shell: Shell, golden: Golden
) -> None:
    shell.run("stitchpath make rug.toml --out rug")
    text = (shell.folder / "rug" / "sewing-order.txt").read_text(encoding="utf-8")
    golden.check(text, _GOLDEN.parent / "sewing-order" / "rug.txt")


def test_what_to_cut_is_told_for_someone_in_the_shop(shell: Shell, golden: Golden) -> None:
    shell.run("stitchpath make rug.toml --out rug")
    text = (shell.folder / "rug" / "cutting-list.txt").read_text(encoding="utf-8")
    golden.check(text, _GOLDEN.parent / "cutting-list" / "rug.txt")


def test_list_of_layouts_fits_a_terminal_and_shows_every_key(shell: Shell) -> None:
    text = shell.run("stitchpath list layouts").out
    lines = text.splitlines()
    assert max(map(len, lines)) <= 80
    names = [line.split()[0] for line in lines[1:] if not line.startswith(" ")]
    assert names == list(layout_names())
    shown = [line.split(":")[0].strip() for line in lines if line.startswith(" ")]
    assert shown == [key for name in names for key in find_layout(name).keys]
    listed = json.loads(shell.run("stitchpath list layouts --json").out)
    assert [(row["name"], list(row["keys"])) for row in listed] == [
        (name, list(find_layout(name).keys)) for name in names
    ]
