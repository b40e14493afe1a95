"""Whatever is put in: one clear message, the right exit code, nothing written."""

from pathlib import Path

import pytest

from tests.support.command_line import Shell, assert_well_said
from tests.support.output_folders import hidden_places, read_folder
from tests.support.permissions import as_somebody, open_to_all

_QUILT = "[quilt]\nwidth = 600\nlength = 800\n"
_PROJECTS = {
    "empty": ("", "`quilt` is missing"),
    "broken TOML": ("name = [\n", "error[toml]"),
    "wrong type": ("quilt = 5\n", "must be a table"),
    "not a number": ("[quilt]\nwidth = nan\nlength = 800\n", "is not a finite number: nan"),
    "endless": ("[quilt]\nwidth = inf\nlength = 800\n", "is not a finite number: inf"),
    "negative": ("[quilt]\nwidth = -3\nlength = 800\n", "must be between 20 mm and 10000 mm"),
    "zero": ("[quilt]\nwidth = 0\nlength = 800\n", "must be between 20 mm and 10000 mm"),
    "a kilometre": (
        '[quilt]\nwidth = "100000 cm"\nlength = 800\n',
        "must be between 20 mm and 10000 mm",
    ),
    "a field of 1 mm": (
        f"{_QUILT}[machine]\nfield = [1, 1]\n",
        "must be between 20 mm and 10000 mm",
    ),
    "spacing of a micron": (
        f'{_QUILT}[[quilt.quilting]]\nspacing = "0.001 mm"\n',
        "must be between 1 mm and 2000 mm",
    ),
    "too many stitches": (
        "[quilt]\nwidth = 10000\nlength = 10000\n[[quilt.quilting]]\nspacing = 1\n",
        "must come to at most 10,000,000",
    ),
    "pocket larger than the quilt": (
        f"{_QUILT}[pocket]\nwidth = 700\nlength = 900\n",
        "the pocket is wider than the quilt: 700 mm",
    ),
    "unknown layout": (
        f'{_QUILT}[[quilt.quilting]]\nlayout = "crosshash"\n',
        "the nearest choice is `crosshatch`",
    ),
    "unknown format": (
        f'{_QUILT}[machine]\nformats = ["dts"]\n',
        "the nearest choice is `dst`",
    ),
    "control character in the name": (f'name = "a\\u001b[31mb"\n{_QUILT}', "U+001B"),
    "writing turned round in the name": (f'name = "a\\u202eb"\n{_QUILT}', "U+202E"),
}


@pytest.mark.parametrize("command", ["check", "make"])
@pytest.mark.parametrize("case", _PROJECTS)
def test_project_with_problems_is_told_and_nothing_is_written(
    case: str, command: str, shell: Shell
) -> None:
    text, said = _PROJECTS[case]
    (shell.folder / "bad.toml").write_text(text, encoding="utf-8")
    ran = shell.run(f"stitchpath {command} bad.toml{' --out out' * (command == 'make')}")
    assert_well_said(ran)
    assert said in ran.err
    assert ran.err.splitlines()[-1].endswith("in bad.toml")
    assert ran.code == 1
    assert not (shell.folder / "out").exists()


_FILES = {
    "missing": ("gone.toml", "there is no file `gone.toml`"),
    "folder": ("folder", "`folder` is a folder"),
    "binary": ("binary.toml", "is not UTF-8"),
    "endless": ("/dev/zero", "must have at most 1,000,000"),
    "long name": ("a" * 300, "File name too long"),
}


@pytest.mark.parametrize("case", _FILES)
def test_file_that_is_no_project_is_told(case: str, shell: Shell) -> None:
    name, said = _FILES[case]
    (shell.folder / "binary.toml").write_bytes(bytes(range(256)))
    ran = shell.run(f"stitchpath check {name}")
    assert_well_said(ran)
    assert said in ran.err
    assert ran.code == 1


def test_unreadable_file_is_told(shell: Shell) -> None:
    shell.run("stitchpath check rug.toml")  # all that is imported late is imported by now
    open_to_all(shell.folder)
    (shell.folder / "rug.toml").chmod(0)
    with as_somebody():
        ran = shell.run("stitchpath check rug.toml")
    assert_well_said(ran)
    assert ran.err.startswith("error: `rug.toml` cannot be read: permission is missing\n")
    assert ran.code == 1


def test_folder_that_may_not_be_written_is_told(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    # what one process makes alone, it has imported before it is somebody else
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0})
    shell.run("stitchpath make rug.toml --out rug")
    open_to_all(shell.folder)
    (shell.folder / "folder").chmod(0o555)
    with as_somebody():
        ran = shell.run("stitchpath make rug.toml --out folder/out")
    assert_well_said(ran)
    assert "cannot be written: permission is missing\nnothing was changed" in ran.err
    assert ran.code == 1


def test_full_disk_is_told_and_left_as_it_was(shell: Shell, small_disk: Path) -> None:
    ran = shell.run(f"stitchpath make rug.toml --out {small_disk}/rug")
    assert_well_said(ran)
    assert "cannot be written: the disk is full\nnothing was changed" in ran.err
    assert ran.code == 1
    assert list(small_disk.iterdir()) == []


def test_makers_own_file_in_the_way_stays(with_files: Shell) -> None:
    own = with_files.folder / "rug" / "seam" / "01.dst"
    own.write_text("moved by hand")
    before = read_folder(with_files.folder)
    ran = with_files.run("stitchpath make rug.toml --out rug")
    assert_well_said(ran)
    assert "`" + str(own) + "` is your own and in the way" in ran.err
    assert ran.code == 1
    assert read_folder(with_files.folder) == before
    assert hidden_places(with_files.folder) == []


_OPTIONS = {
    "corner --side 0": "--side cannot be `0`",
    "corner --side=-1": "--side cannot be `-1`",
    "corner --side nan": "--side cannot be `nan`",
    "corner --side '1 m'": "`m` is not a unit of length here",
    "corner --side 2.9": "it must be between 3 mm and 100 mm",
    "corner --side 100.1": "it must be between 3 mm and 100 mm",
    "corner --across 1000in": "it must be between 3 mm and 100 mm",
    "corner --passes 0": "it must be a whole number between 1 and 5",
    "corner --passes 6": "it must be a whole number between 1 and 5",
    "corner --passes 2.5": "it must be a whole number between 1 and 5",
    "corner --stitch-length 0.4": "it must be between 0.5 mm and 12 mm",
    "corner --stitch-length 12.1": "it must be between 0.5 mm and 12 mm",
    "corner --thickness 0": "it must be between 0.1 mm and 80 mm",
    "corner --thickness 81": "it must be between 0.1 mm and 80 mm",
    "corner --hand up": "choose `left` or `right`",
    "corner --field 100": "a field is a width and a height, such as `100x100`",
    "corner --field 10x10": "it must be between 20 mm and 10000 mm",
    "corner --field 1e9x100": "`e9` is not a unit of length here",
    "count upper.dst --speed 49": "it must be a number between 50 and 3000",
    "count upper.dst --speed nan": "it must be a number between 50 and 3000",
    "count upper.dst --speed fast": "it must be a number between 50 and 3000",
    "count upper.dst --thickness=-3": "it must be between 0.1 mm and 80 mm",
    "count upper.dst --bobbin Q": "choose from A, L, M",
    "list layout": "choose `layouts`, `fields`",
    "preview rug.toml --hooping 0": "it must be a whole number between 1 and 2",
    "preview rug.toml --stage quit": "choose `pocket`, `quilt` or `seam`",
}


@pytest.mark.parametrize("line", _OPTIONS)
def test_option_that_cannot_be_is_told_with_its_limits(line: str, shell: Shell) -> None:
    needs_out = line.startswith(("corner", "preview"))
    out = "out.dst" if line.startswith("corner") else "out.svg"
    ran = shell.run(f"stitchpath {line}{f' --out {out}' * needs_out}")
    assert_well_said(ran)
    assert _OPTIONS[line] in ran.err
    assert ran.code == 2
    assert not list(shell.folder.glob("out*"))


_CORNERS = (
    "--side 3 --across 3 --passes 1 --stitch-length 0.5",
    "--side 3 --across 3 --passes 5 --stitch-length 12 --hand right",
    "--side 100 --across 100 --passes 5 --stitch-length 0.5 --field 130x130",
    "--side 100 --across 3 --passes 2 --stitch-length 12 --thickness 80 --field 4.5inx4.5in",
    "--field '10000 x 10000 mm' --thickness 0.1",
)


@pytest.mark.parametrize("options", _CORNERS)
@pytest.mark.parametrize("ending", ["dst", "svg"])
def test_corner_at_the_limits_is_made(options: str, ending: str, shell: Shell) -> None:
    ran = shell.run(f"stitchpath corner {options} --out corner.{ending}")
    assert ran.code == 0, ran.err
    assert (shell.folder / f"corner.{ending}").stat().st_size > 0


def test_stitch_files_that_are_none_are_told(with_files: Shell) -> None:
    for name in ("short.dst", "empty.exp", "gone.dst"):
        ran = with_files.run(f"stitchpath count upper.DST {name}")
        assert_well_said(ran)
        assert f"`{name}`" in ran.err
        assert "help: " in ran.err
        assert ran.code == 1


@pytest.mark.parametrize("ending", ["exp", "pes", "jef", "vp3", "u01", "xxx"])
def test_dst_file_by_another_name_is_told(ending: str, with_files: Shell) -> None:
    data = (with_files.folder / "upper.DST").read_bytes()
    (with_files.folder / f"renamed.{ending}").write_bytes(data)
    ran = with_files.run(f"stitchpath count renamed.{ending}")
    assert ran.err.splitlines() == [
        "",
        f"warning: `renamed.{ending}`: it is a dst file by its content, whatever its name says",
    ]
    assert ran.code == 0
    true_name = with_files.run("stitchpath count upper.DST")
    assert ran.out.split()[-10:] == true_name.out.split()[-10:]
