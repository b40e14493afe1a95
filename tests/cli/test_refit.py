"""`refit`: files move to where marks are, and the refits are kept beside the project."""

import json
from typing import Any

import numpy as np
import pytest

from stitchpath.cli.files import load_project
from stitchpath.machine import decode
from stitchpath.machine.rows import FileStitches
from stitchpath.pipeline import plan
from tests.support.command_line import DESIGNS, Ran, Shell, assert_well_said


def planned_marks(hooping: int) -> dict[str, tuple[float, float]]:
    """Return where the marks of one of the rug's hoopings are planned to be in the field."""
    (stage,) = plan(load_project(DESIGNS / "kiosk-corners.toml")).stages
    return {mark.name: mark.field for mark in stage.hoopings[hooping - 1].hooping.marks}


PLANNED = planned_marks(1)


def refit(
    shell: Shell, found: dict[str, tuple[float, float]], more: str = "", hooping: int = 1
) -> Ran:
    marks = " ".join(f"--mark {name}={x:.6f},{y:.6f}" for name, (x, y) in found.items())
    line = f"stitchpath refit rug.toml --stage seam --hooping {hooping} --out again.dst"
    return shell.run(f"{line} {marks} {more}")


def turned(angle: float, shift: tuple[float, float], scale: float = 1.0) -> dict[str, Any]:
    c, s = scale * np.cos(angle), scale * np.sin(angle)
    return {
        name: (c * x - s * y + shift[0], s * x + c * y + shift[1])
        for name, (x, y) in PLANNED.items()
    }


def read(shell: Shell, name: str) -> FileStitches:
    return decode((shell.folder / name).read_bytes(), name.rpartition(".")[2])


def kept(shell: Shell) -> list[dict[str, Any]]:
    data = json.loads((shell.folder / "rug.refits.json").read_text())
    assert data["schema"] == "stitchpath-refits-1"
    refits: list[dict[str, Any]] = data["refits"]
    return refits


@pytest.mark.parametrize(
    ("more", "scale", "suffix"),
    [("", 1.0, "dst"), ("--allow-stretch", 1.02, "dst"), ("--allow-stretch", 0.97, "dst")],
)
def test_the_file_holds_the_planned_stitches_moved(
    with_files: Shell, more: str, scale: float, suffix: str
) -> None:
    """Every point of the file lies where the planned one is moved to, within its grid."""
    found = turned(0.05, (3.0, -2.0), scale)
    assert refit(with_files, found, more).code == 0
    before = read(with_files, f"rug/seam/01.{suffix}").needle_points_units / 10
    after = read(with_files, f"again.{suffix}").needle_points_units / 10
    c, s = scale * np.cos(0.05), scale * np.sin(0.05)
    expected = before @ np.array([[c, s], [-s, c]]) + (3.0, -2.0)
    # both are rounded to 0.1 mm, the first one then stretched
    assert np.abs(after - expected).max() <= 0.05 + 0.05 * np.sqrt(2) * 1.02 + 1e-9


def test_hooping_that_lies_as_planned_gives_the_planned_file(with_files: Shell) -> None:
    assert refit(with_files, PLANNED).code == 0
    folder = with_files.folder
    assert (folder / "again.dst").read_bytes() == (folder / "rug/seam/01.dst").read_bytes()


def test_refits_are_kept_one_of_each_hooping(shell: Shell) -> None:
    assert refit(shell, turned(0.01, (1, 1))).code == 0
    first = kept(shell)
    assert refit(shell, turned(0.02, (1, 1)), "--replace").code == 0
    again = kept(shell)
    assert [row["hooping"] for row in first] == [row["hooping"] for row in again] == [1]
    assert again[0]["turn"] == pytest.approx(-np.degrees(0.02))


def test_make_and_the_next_refit_say_what_was_refitted(shell: Shell) -> None:
    assert refit(shell, turned(0.01, (1, 1))).code == 0
    told = "hooping 1 of the stage seam was refitted into `again.dst`"
    assert told in shell.run("stitchpath make rug.toml --out rug").err
    text = (shell.folder / "rug" / "sewing-order.txt").read_text()
    assert "refitted     into again.dst, which is sewn instead" in text
    data = json.loads((shell.folder / "rug" / "plan.json").read_text())
    first, second = data["stages"][0]["hoopings"]
    assert first["refit"]["file"] == "again.dst"
    assert second["refit"] is None
    assert told in refit(shell, planned_marks(2), "--replace", hooping=2).err
    assert [row["hooping"] for row in kept(shell)] == [1, 2]


def test_refit_of_a_changed_project_does_not_count(shell: Shell) -> None:
    assert refit(shell, PLANNED).code == 0
    project = shell.folder / "rug.toml"
    project.write_text(project.read_text().replace("width = 90", "width = 80"))
    ran = shell.run("stitchpath make rug.toml --out rug")
    assert "in another plan: this refit does not count" in ran.err
    assert "refitted" not in (shell.folder / "rug" / "sewing-order.txt").read_text()


def test_existing_file_stays_and_nothing_is_noted(shell: Shell) -> None:
    (shell.folder / "again.dst").write_bytes(b"mine")
    ran = refit(shell, PLANNED)
    assert ran.code == 1
    assert_well_said(ran)
    assert (shell.folder / "again.dst").read_bytes() == b"mine"
    assert not (shell.folder / "rug.refits.json").exists()


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{}", '{"schema": "other", "refits": []}', "\x00", "[" * 5000,
     '{"schema": "stitchpath-refits-1", "refits": [{"stage": 1}]}',
     '{"schema": "stitchpath-refits-1", "refits": 7}',
     '{"schema": "stitchpath-refits-1", "refits": [], "more": NaN}'],
)  # fmt: skip
def test_file_that_holds_no_refits_is_told_and_left_alone(shell: Shell, text: str) -> None:
    path = shell.folder / "rug.refits.json"
    path.write_text(text)
    for ran in (refit(shell, PLANNED), shell.run("stitchpath make rug.toml --out rug")):
        assert ran.code == 1
        assert_well_said(ran)
        assert "not a file of refits" in ran.err
    assert path.read_text() == text
    assert not (shell.folder / "again.dst").exists()


def test_names_in_a_file_of_refits_are_words_in_every_output(shell: Shell) -> None:
    assert refit(shell, PLANNED).code == 0
    path = shell.folder / "rug.refits.json"
    data = json.loads(path.read_text())
    data["refits"][0]["file"] = "a\x1b[31m\ud800\nb.dst"
    path.write_text(json.dumps(data))
    ran = shell.run("stitchpath make rug.toml --out rug")
    assert ran.code == 0
    order = (shell.folder / "rug" / "sewing-order.txt").read_text(encoding="utf-8")
    assert r"into a\x1b[31m\ud800 b.dst" in " ".join(order.split())
    assert "\x1b" not in order + ran.err


def test_much_stretch_is_refused_even_where_it_is_allowed(shell: Shell) -> None:
    ran = refit(shell, turned(0, (0, 0), 0.94), "--allow-stretch")
    assert ran.code == 1
    assert_well_said(ran)
    assert "6.0 % closer together" in ran.err
    assert "--allow-stretch" not in ran.err
    assert not (shell.folder / "again.dst").exists()


def test_places_told_in_inches_without_a_unit_are_met_with_what_is_taken(shell: Shell) -> None:
    """They make marks lie 25.4 times closer together: 96 % (definition of an inch)."""
    ran = refit(shell, {name: (x / 25.4, y / 25.4) for name, (x, y) in PLANNED.items()})
    assert ran.code == 1
    assert "96.1 % closer together than planned" in ran.err
    assert "help: check the places: a number without a unit is in mm" in ran.err
    typed = " ".join(
        f"--mark {name}={x / 25.4:.5f}in,{y / 25.4:.5f}in" for name, (x, y) in PLANNED.items()
    )
    assert (
        shell.run(
            f"stitchpath refit rug.toml --stage seam --hooping 1 --out n.dst {typed}"
        ).code
        == 0
    )


def test_mark_far_from_where_the_others_put_it_is_refused(shell: Shell) -> None:
    """Three marks, one of them 9 mm off across the line of the other two."""
    (shell.folder / "mat.toml").write_text(
        "[quilt]\nwidth = 460\nlength = 460\n[machine]\nfield = [240, 360]\n"
    )
    shell.run("stitchpath make mat.toml --out mat")
    data = json.loads((shell.folder / "mat" / "plan.json").read_text())
    marks = data["stages"][0]["hoopings"][0]["marks"]
    assert len(marks) >= 3
    places = [mark["field"] for mark in marks]
    across = np.subtract(places[1], places[0])[::-1] * [-1, 1]
    places[2] = places[2] + 9 * across / np.hypot(*across)
    options = " ".join(
        f"--mark {mark['name']}={x},{y}" for mark, (x, y) in zip(marks, places, strict=True)
    )
    ran = shell.run(
        f"stitchpath refit mat.toml --stage quilt --hooping 1 --out mat.dst {options}"
    )
    assert ran.code == 1
    assert_well_said(ran)
    assert "the limit is 2 mm" in ran.err


def test_hoop_that_lies_turned_round_is_made_sure_of(shell: Shell) -> None:
    found = {name: (-x, -y) for name, (x, y) in PLANNED.items()}
    assert "make sure that no marks are mixed up" in refit(shell, found).err


def test_project_that_cannot_be_sewn_is_not_refitted(shell: Shell) -> None:
    line = "stitchpath refit misfit.toml --stage seam --hooping 1 --out x.dst"
    ran = shell.run(f"{line} --mark A=1,2 --mark B=3,4")
    assert ran.code == 1
    assert "nothing was written" in ran.err


def test_refit_that_cannot_be_noted_says_that_its_file_is_written(shell: Shell) -> None:
    """A name of 250 bytes leaves no room for the longer one of the refits beside it."""
    name = f"{'x' * 245}.toml"
    (shell.folder / "rug.toml").rename(shell.folder / name)
    marks = " ".join(f"--mark {name}={x},{y}" for name, (x, y) in PLANNED.items())
    ran = shell.run(f"stitchpath refit {name} --stage seam --hooping 1 --out n.dst {marks}")
    assert ran.code == 1
    assert_well_said(ran)
    assert "`n.dst` is written and good" in ran.err
    assert (shell.folder / "n.dst").exists()
    assert shell.run(f"stitchpath make {name} --out rug").code == 0
