"""`inspect`: what is in stitch files of any kind, and whether they fit a field."""

import json
import os
import pickle
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest

from stitchpath.cli.inspected import Inspected
from stitchpath.cli.reading import stitch_reader
from stitchpath.cli.shared_options import CountOptions
from stitchpath.cli.stitch_files import count_file, counting, open_file
from tests.support.command_line import Shell, assert_well_said
from tests.support.kinds_of_files import KINDS, file_of_kind
from tests.support.permissions import as_somebody, open_to_all
from tests.support.svg_reader import SVG

_PROJECT = """
name = "Gull Rock mat"
quilt = { width = 210, length = 260, quilting = [{ spacing = 30, stitch_length = 3 }] }
batting = { thickness = 3 }
machine = { field = [130, 180], speed = 600, formats = [FORMATS] }
"""


def _inspected(shell: Shell, line: str, code: int = 0) -> Any:  # noqa: ANN401 - whatever JSON holds
    ran = shell.run(f"stitchpath inspect {line} --json")
    assert ran.code == code, ran.err
    return json.loads(ran.out)


@pytest.fixture
def kinds(shell: Shell) -> Path:
    """Give a folder with a file of every kind, and others."""
    folder = shell.folder / "kinds"
    (folder / "below").mkdir(parents=True)
    for kind in KINDS:
        (folder / f"mat.{kind}").write_bytes(file_of_kind(kind))
    (folder / "below" / "letter.txt").write_text("the maker's own\n")
    (folder / "below" / "notes.json").write_text("{}")
    return folder


def test_files_of_a_plan_come_to_what_the_plan_says(shell: Shell) -> None:
    """dst, exp, u01 and xxx keep all that is in a plan; see docs/formats.md for the others."""
    names = ["dst", "exp", "u01", "xxx", "jef", "pes", "vp3"]
    listed = ", ".join(f'"{name}"' for name in names)
    (shell.folder / "mat.toml").write_text(_PROJECT.replace("FORMATS", listed))
    assert shell.run("stitchpath make mat.toml --out mat").code == 0
    plan = json.loads((shell.folder / "mat" / "plan.json").read_text())
    (stage,) = plan["stages"]
    hoopings = {
        file: hooping for hooping in stage["hoopings"] for file in hooping["files"].values()
    }
    files = _inspected(shell, "mat/quilt --field 130x180")
    assert len(files) == len(hoopings) == 7 * len(stage["hoopings"])
    for file in files:
        hooping = hoopings[file["file"].removeprefix("mat/")]
        totals = file["totals"]
        same = ["stitches", "pauses"]
        if file["format"] in {"dst", "exp", "u01", "xxx"}:
            same += ["thread_cuts", "jumps", "runs"]
            assert totals["seconds"] == pytest.approx(hooping["seconds"])
            # A needle point is rounded by up to 0.0708 mm, to and fro over the length.
            for thread in ("top_thread_mm", "bobbin_thread_mm"):
                assert totals[thread] == pytest.approx(hooping[thread], rel=0.005)
        assert {name: totals[name] for name in same} == {name: hooping[name] for name in same}
        assert file["bounds"] == pytest.approx(hooping["bounds"])
        assert (file["whole"], file["faults"]) == (True, [])
        assert file["fits"] == "upright"
        assert file["fits_as_it_lies"] is True


def test_a_folder_is_looked_through_and_what_is_no_stitch_file_is_passed_over(
    shell: Shell, kinds: Path
) -> None:
    ran = shell.run("stitchpath inspect kinds")
    assert ran.code == 0, ran.err
    rows = [line.split() for line in ran.out.splitlines()]
    assert [(row[0], row[1]) for row in rows[1:]] == [
        (f"kinds/mat.{kind}", kind) for kind in sorted(KINDS)
    ]
    assert ran.err.splitlines() == [
        "passed over, no stitch file: 2",
        f"looked into {len(KINDS)} files, 0 with errors",
    ]
    assert kinds.is_dir()


def test_one_bad_file_does_not_hide_the_others(shell: Shell, kinds: Path) -> None:
    (kinds / "cut.dst").write_bytes(file_of_kind("dst")[:600])
    (kinds / "noise.vp3").write_bytes(b"%vsm%" + bytes(range(256)) * 9)
    (kinds / "empty.exp").touch()
    ran = shell.run("stitchpath inspect kinds")
    assert ran.code == 1
    assert len(ran.out.splitlines()) == 1 + len(KINDS) + 1
    assert "error: `kinds/cut.dst`: there is no end mark\n" in ran.err
    assert "error: `kinds/noise.vp3`: the bytes cannot be read as a vp3 file: " in ran.err
    assert "error: `kinds/empty.exp`: read as exp, it holds no stitches\n" in ran.err
    assert ran.err.endswith(f"looked into {len(KINDS) + 3} files, 3 with errors\n")
    said = _inspected(shell, "kinds", code=1)
    assert {one["file"] for one in said if "problem" in one} == {
        "kinds/empty.exp",
        "kinds/noise.vp3",
    }
    assert [one["file"] for one in said if one.get("whole") is False] == ["kinds/cut.dst"]


def test_one_file_is_told_a_fact_a_line(shell: Shell, kinds: Path) -> None:
    ran = shell.run("stitchpath inspect kinds/mat.dst --field 35x50")
    assert ran.code == 0, ran.err
    assert kinds.is_dir()
    facts = dict(line.split("  ", 1) for line in ran.out.splitlines())
    facts = {name: value.strip() for name, value in facts.items()}
    assert facts["format"] == "dst"
    assert facts["whole"] == "yes, as far as its marks tell"
    assert facts["stitches"] == "45"
    assert facts["colour blocks"] == "2"
    assert facts["size"] == "39 x 32.5 mm"
    assert facts["longest stitch"] == "2.5 mm"  # the square's side
    assert facts["shortest stitch"] == "1.4 mm"  # a zigzag of 1 mm by 1 mm (geometry)
    assert facts["crowded places"] == "none"
    assert facts["common fields"].startswith("100x100, 130x180")
    assert facts["field 35 x 50 mm"].startswith("turned, but not as the file lies")


def test_a_file_that_does_not_fit_the_field_is_an_error(shell: Shell, kinds: Path) -> None:
    ran = shell.run("stitchpath inspect kinds/mat.dst --field 30x38")
    assert kinds.is_dir()
    assert ran.code == 1
    assert "error: `kinds/mat.dst`: 39 x 32.5 mm does not fit a field of 30 x 38 mm" in ran.err
    assert ran.out.splitlines()[-1].endswith("does not hold it")


def test_the_picture_is_an_svg_of_one_file(shell: Shell, kinds: Path) -> None:
    odd = kinds / "<b>&amp;\u202e\x1b[31m.dst"
    odd.write_bytes(file_of_kind("dst"))
    ran = shell.run(f"stitchpath inspect 'kinds/{odd.name}' --out it.svg")
    assert ran.code == 0, ran.err
    assert "\x1b" not in ran.out + ran.err
    assert "\u202e" not in ran.out + ran.err
    drawn = (shell.folder / "it.svg").read_text(encoding="utf-8")
    words = [
        text.text
        for text in ET.fromstring(drawn).iter(f"{SVG}text")  # noqa: S314 - ours
    ]
    assert "<b>&amp; [31m.dst" in words
    again = shell.run("stitchpath preview kinds/mat.jef --out jef.svg")
    assert again.code == 0, again.err
    assert "read as jef, 2 colour blocks" in (shell.folder / "jef.svg").read_text()


_WRONG = {
    "kinds --out it.svg": "--out draws one stitch file",
    "kinds/mat.dst kinds/mat.exp --out it.svg": "--out draws one stitch file",
    "kinds/mat.dst --out it.png": "pictures are SVG",
    "kinds/mat.dst --field wide": "a field is a width and a height, such as `100x100`",
    "kinds/mat.dst --field 5x100": "it must be between 20 mm and 10000 mm",
    "kinds/mat.dst --speed 1": "it must be a number between 50 and 3000",
}


@pytest.mark.parametrize("words", _WRONG)
def test_wrong_options_are_told(words: str, shell: Shell, kinds: Path) -> None:
    assert kinds.is_dir()
    ran = shell.run(f"stitchpath inspect {words}")
    assert_well_said(ran)
    assert ran.code == 2
    assert _WRONG[words] in ran.err


def test_preview_options_of_a_project_do_not_go_with_a_stitch_file(
    shell: Shell, kinds: Path
) -> None:
    assert kinds.is_dir()
    ran = shell.run("stitchpath preview kinds/mat.dst --out it.svg --hooping 1")
    assert_well_said(ran)
    assert ran.code == 2
    assert not (shell.folder / "it.svg").exists()


def test_a_picture_of_what_cannot_be_read_is_not_drawn(shell: Shell) -> None:
    (shell.folder / "noise.pes").write_bytes(b"#PES0001" + bytes(40))
    ran = shell.run("stitchpath inspect noise.pes --out it.svg")
    assert_well_said(ran)
    assert ran.code == 1
    assert not (shell.folder / "it.svg").exists()


def test_what_is_cut_short_is_counted_and_previewed_with_a_word(shell: Shell) -> None:
    (shell.folder / "cut.dst").write_bytes(file_of_kind("dst")[:600])
    for line in ("count cut.dst", "preview cut.dst --out it.svg"):
        ran = shell.run(f"stitchpath {line}")
        assert ran.code == 1
        assert "error: `cut.dst`: there is no end mark" in ran.err
        assert "help: it was cut short" in ran.err


def test_pipes_links_and_folders_that_cannot_be_read_hold_nothing_up(
    shell: Shell, kinds: Path
) -> None:
    os.mkfifo(kinds / "endless.dst")
    (kinds / "nowhere.exp").symlink_to("gone.exp")
    (kinds / "round").symlink_to(kinds, target_is_directory=True)
    ran = shell.run("stitchpath inspect kinds")
    assert ran.code == 1
    assert "error: `kinds/endless.dst` is not a plain file\n" in ran.err
    assert "error: there is no file `kinds/nowhere.exp`\n" in ran.err
    assert ran.err.endswith(f"looked into {len(KINDS) + 2} files, 2 with errors\n")


def test_a_folder_that_may_not_be_looked_through_is_told(shell: Shell, kinds: Path) -> None:
    shell.run("stitchpath inspect kinds")  # all that is imported late is imported by now
    locked = kinds / "below"
    locked.chmod(0)
    open_to_all(shell.folder)
    try:
        with as_somebody():
            ran = shell.run("stitchpath inspect kinds")
    finally:
        locked.chmod(0o755)
    assert ran.code == 1
    assert "error: `kinds/below` cannot be looked through: Permission denied" in ran.err


def test_a_folder_without_stitch_files_is_an_empty_list(shell: Shell) -> None:
    (shell.folder / "bare").mkdir()
    assert _inspected(shell, "bare") == []
    ran = shell.run("stitchpath inspect bare")
    assert (ran.code, ran.out) == (0, "")
    assert ran.err == "there is no stitch file in `bare`\n"


def test_what_no_common_field_holds_and_no_mark_tells_is_said(shell: Shell) -> None:
    """Nine needle points on the spot, then one a metre away; emd has no mark of its end."""
    far = bytes([5, 0]) * 9 + bytes([0x7F, 0]) * 80 + bytes([0x80, 0xFD])
    (shell.folder / "far.emd").write_bytes(bytes(0x30) + bytes([0, 0]) * 9 + far)
    ran = shell.run("stitchpath inspect far.emd --out far.svg")
    assert ran.code == 0, ran.err
    facts = dict(line.split("  ", 1) for line in ran.out.splitlines())
    facts = {name: value.strip() for name, value in facts.items()}
    assert facts["whole"] == "nothing in this format tells"
    assert facts["common fields"] == "none holds it"
    assert facts["crowded places"] == "1 squares of 2 mm with more than 8 needle points"
    assert facts["fullest place"].startswith("12 needle points at x 1, y 1 mm")
    assert "the needle's reach" not in (shell.folder / "far.svg").read_text()
    table = shell.run("stitchpath inspect far.emd far.emd --field 100x100")
    assert table.code == 1
    assert table.out.count("too large") == 2


def test_a_picture_says_where_the_field_is_not_around_the_files_centre(shell: Shell) -> None:
    (shell.folder / "mat.dst").write_bytes(file_of_kind("dst"))
    ran = shell.run("stitchpath inspect mat.dst --field 50x50 --out it.svg")
    assert ran.code == 0, ran.err
    assert "the field is drawn around it" in (shell.folder / "it.svg").read_text()


def test_line_files_are_made_and_listed_with_the_others(shell: Shell) -> None:
    listed = '"dst", "svg", "dxf", "gcode", "csv", "json"'
    project = _PROJECT.replace("[FORMATS]", f"[{listed}], gcode = {{ needle_down = 'M7' }}")
    (shell.folder / "mat.toml").write_text(project)
    ran = shell.run("stitchpath make mat.toml --out mat")
    assert ran.code == 0, ran.err
    plan = json.loads((shell.folder / "mat" / "plan.json").read_text())
    files = plan["stages"][0]["hoopings"][0]["files"]
    assert list(files) == ["dst", "svg", "dxf", "gcode", "csv", "json"]
    assert set(files.values()) <= plan["files"].keys()
    assert "\nM7\n" in (shell.folder / "mat" / files["gcode"]).read_text()
    read = _inspected(shell, "mat/quilt/01.dst mat/quilt/01.csv mat/quilt/01.json")
    assert [file["totals"]["stitches"] for file in read] == [read[0]["totals"]["stitches"]] * 3
    assert shell.run("stitchpath inspect mat/quilt/01.gcode").code == 1


def test_what_is_kept_of_a_file_does_not_grow_with_it(tmp_path: Path) -> None:
    sizes = []
    for count in (10, 100_000):
        path = tmp_path / f"{count}.exp"
        path.write_bytes(b"\x05\x05" * count)
        with stitch_reader() as reader:
            opened = open_file(path, reader)
        counted = count_file(opened, counting(CountOptions()))
        sizes.append(len(pickle.dumps(Inspected.of(opened, counted, bobbin="L"))))
    assert sizes[1] < sizes[0] + 100


def test_what_takes_long_says_how_long(
    shell: Shell, kinds: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert kinds.is_dir()
    monkeypatch.setattr("stitchpath.cli.inspect._LONG_S", -1)
    ran = shell.run("stitchpath inspect kinds")
    assert re.search(rf"looked into {len(KINDS)} files, 0 with errors, in \d+ s\n$", ran.err)
