"""`rewrite`: a stitch file in another format, or divided over hoopings."""

import json
from pathlib import Path

import pytest

from stitchpath.catalog.formats import FORMATS
from tests.support.command_line import Shell, assert_well_said
from tests.support.kinds_of_files import KINDS, file_of_kind


@pytest.fixture
def shell_with_kinds(shell: Shell) -> Shell:
    """Give a shell in a folder with a file of every kind."""
    for kind in KINDS:
        (shell.folder / f"mat.{kind}").write_bytes(file_of_kind(kind))
    return shell


def test_a_file_is_written_in_another_format_and_what_is_lost_is_told(
    shell_with_kinds: Shell,
) -> None:
    ran = shell_with_kinds.run("stitchpath rewrite mat.jef --out again.dst")
    assert ran.code == 0, ran.err
    assert ran.out == ""
    assert ran.err.startswith(
        "warning: colours are not kept: 2 colour blocks are written in one colour\n"
    )
    assert ran.err.endswith("\nwrote `again.dst`\n")
    seen = shell_with_kinds.run("stitchpath inspect mat.jef again.dst --json")
    before, after = json.loads(seen.out)
    assert after["whole"] is True
    assert after["format"] == "dst"
    for key in ("bounds", "size", "longest_stitch"):
        assert after[key] == before[key]
    assert after["totals"]["stitches"] == before["totals"]["stitches"]


def test_it_is_divided_into_a_folder_as_make_does(shell_with_kinds: Shell) -> None:
    line = "stitchpath rewrite mat.pes --field 30x30 --format exp --out parts --json"
    ran = shell_with_kinds.run(line)
    assert ran.code == 0, ran.err
    told = json.loads(ran.out)
    assert (told["file"], told["format"], told["out"]) == ("mat.pes", "exp", "parts")
    parts = sorted((shell_with_kinds.folder / "parts" / "quilt").glob("*.exp"))
    assert len(parts) == told["hoopings"] > 1
    assert (shell_with_kinds.folder / "parts" / "sewing-order.txt").exists()
    seen = shell_with_kinds.run("stitchpath inspect parts --field 30x30 --json")
    assert all(file["fits_as_it_lies"] for file in json.loads(seen.out))
    again = shell_with_kinds.run(line.replace("--json", "--replace"))
    assert again.code == 0, again.err
    assert "distances of marks are from a rectangle 20 mm outside the stitches" in again.err


_WRONG = {
    "mat.dst --out again.abc": (2, "choose a name that ends in .dst"),
    "mat.dst --out again.dst --format exp": (2, "with --field, a folder and --format"),
    "mat.dst --out parts --field 90x90 --format abc": (2, "--format cannot be `abc`"),
    "mat.dst --out parts --field ninety": (2, "a field is a width and a height"),
    "gone.dst --out again.exp": (1, "there is no file `gone.dst`"),
    "cut.dst --out again.exp": (1, "nothing was written"),
    "mat.dst --out mat.exp": (1, "`mat.exp` exists already"),
    "far.pes --out parts --field 40x40": (1, "help: choose a larger field"),
    "huge.gcode --out parts --field 40x40": (1, "help: choose a larger field"),
    "huge.gcode --out huge.pes": (1, "cannot say how far out the needle goes"),
}


@pytest.mark.parametrize("words", _WRONG)
def test_what_cannot_be_written_is_told(words: str, shell_with_kinds: Shell) -> None:
    folder: Path = shell_with_kinds.folder
    (folder / "cut.dst").write_bytes(file_of_kind("dst")[:600])
    far = "G0 X0 Y0\nG1 X100 Y0\nM30\n"
    (folder / "far.gcode").write_text(far)
    (folder / "huge.gcode").write_text(far.replace("X100", "X20000"))
    if "far.pes" in words:
        assert shell_with_kinds.run("stitchpath rewrite far.gcode --out far.pes").code == 0
    ran = shell_with_kinds.run(f"stitchpath rewrite {words}")
    code, said = _WRONG[words]
    assert_well_said(ran)
    assert ran.code == code
    assert said in ran.err
    assert not (folder / "parts").exists()


@pytest.mark.parametrize("name", FORMATS)
def test_an_odd_name_becomes_a_plain_one_in_the_file(name: str, shell: Shell) -> None:
    odd = "=1+1 <b>\u202e é.dst"
    (shell.folder / odd).write_bytes(file_of_kind("dst"))
    ran = shell.run(f"stitchpath rewrite '{odd}' --out again.{name}")
    assert ran.code == 0, ran.err
    data = (shell.folder / f"again.{name}").read_bytes()
    assert b"<b>" not in data
    assert b"=1+1" not in data
