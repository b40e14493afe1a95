"""A folder holds what was made, and what is the maker's own stays."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from stitchpath.cli.folder import write_folder
from stitchpath.errors import OutputError
from tests.support.output_folders import (
    FIRST,
    SECOND,
    hidden_places,
    made_files,
    read_folder,
    with_plan,
)


@pytest.fixture(autouse=True)
def _nothing_left_behind(tmp_path: Path) -> Iterator[None]:
    yield
    assert hidden_places(tmp_path) == []


def test_new_folder_holds_just_the_files_and_parents_are_made(tmp_path: Path) -> None:
    out = tmp_path / "deep" / "er" / "out"
    write_folder(out, FIRST)
    assert read_folder(out) == FIRST


def test_second_make_replaces_and_drops_what_the_first_made(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    write_folder(out, SECOND)
    assert read_folder(out) == SECOND


def test_folder_emptied_by_a_make_goes_but_the_makers_empty_one_stays(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    (out / "photos" / "later").mkdir(parents=True)
    write_folder(out, made_files(booklet_html="no stitches"))
    assert not (out / "quilt").exists()
    assert (out / "photos" / "later").is_dir()


def test_makers_own_files_stay(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    (out / "quilt" / "notes.txt").write_text("linen in the bobbin")
    (out / "link").symlink_to("quilt/notes.txt")
    write_folder(out, SECOND)
    assert (out / "quilt" / "notes.txt").read_text() == "linen in the bobbin"
    assert (out / "link").is_symlink()
    assert (out / "link").read_text() == "linen in the bobbin"
    assert read_folder(out).keys() == SECOND.keys() | {"quilt/notes.txt", "link"}


def test_changed_file_that_is_made_no_more_stays(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    (out / "quilt" / "02.dst").write_text("moved by hand")
    write_folder(out, SECOND)
    assert (out / "quilt" / "02.dst").read_text() == "moved by hand"


def test_changed_file_in_the_way_is_named_and_nothing_changes(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    (out / "quilt" / "01.dst").write_text("moved by hand")
    before = read_folder(out)
    with pytest.raises(OutputError) as fault:
        write_folder(out, SECOND)
    assert str(fault.value).splitlines() == [
        f"`{out}/quilt/01.dst` is your own and in the way",
        "move it away or choose another folder",
        "nothing was changed",
    ]
    assert read_folder(out) == before


def test_own_file_that_is_the_same_as_the_new_one_is_not_in_the_way(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "booklet.html").write_bytes(SECOND["booklet.html"])
    write_folder(out, SECOND)
    assert read_folder(out) == SECOND


def test_folder_of_another_origin_keeps_everything(tmp_path: Path) -> None:
    out = tmp_path / "out"
    (out / "letters").mkdir(parents=True)
    (out / "letters" / "to a friend.txt").write_text("dear")
    write_folder(out, FIRST)
    write_folder(out, SECOND)
    assert read_folder(out) == {**SECOND, "letters/to a friend.txt": b"dear"}


@pytest.mark.parametrize(
    "plan", ["not json", "[]", '{"files": []}', '{"name": "a plan of mine"}', "[" * 100_000]
)
def test_plan_that_is_not_ours_is_the_makers_own(tmp_path: Path, plan: str) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "plan.json").write_text(plan)
    with pytest.raises(OutputError, match=r"plan\.json` is your own and in the way"):
        write_folder(out, FIRST)
    assert (out / "plan.json").read_text() == plan


def _own_file_for_a_folder(out: Path) -> None:
    (out / "quilt").write_text("a file")


def _own_folder_for_a_file(out: Path) -> None:
    (out / "booklet.html").mkdir()


def _own_link_for_a_folder(out: Path) -> None:
    (out / "quilt").symlink_to(out.parent)


def _own_link_for_a_file(out: Path) -> None:
    (out / "booklet.html").symlink_to("nowhere")


def _own_tree_for_a_file(out: Path) -> None:
    (out / "booklet.html" / "old").mkdir(parents=True)
    (out / "booklet.html" / "old" / "page").write_text("own")


@pytest.mark.parametrize(
    "put",
    [
        _own_file_for_a_folder,
        _own_folder_for_a_file,
        _own_link_for_a_folder,
        _own_link_for_a_file,
        _own_tree_for_a_file,
    ],
)
def test_other_kind_of_thing_in_the_way_is_named(
    tmp_path: Path, put: Callable[[Path], None]
) -> None:
    out = tmp_path / "out"
    out.mkdir()
    put(out)
    before = sorted(path.name for path in out.rglob("*"))
    with pytest.raises(OutputError, match="is your own and in the way"):
        write_folder(out, FIRST)
    assert sorted(path.name for path in out.rglob("*")) == before


def test_many_files_in_the_way_are_counted(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    names = [f"{n}.svg" for n in range(8)]
    for name in names:
        (out / name).write_text("own")
    with pytest.raises(OutputError) as fault:
        write_folder(out, with_plan(dict.fromkeys(names, b"new")))
    assert "and 3 more" in str(fault.value).splitlines()


def test_file_where_the_folder_should_be_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(OutputError, match=r"out` is not a folder\nchoose another one"):
        write_folder(tmp_path / "out", FIRST)
    with pytest.raises(OutputError, match="a file stands where a folder has to be"):
        write_folder(tmp_path / "out" / "below", FIRST)
    assert (tmp_path / "out").read_text() == "a file"


def test_link_to_a_folder_is_followed_and_kept(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "out").symlink_to("real")
    write_folder(tmp_path / "out", FIRST)
    assert (tmp_path / "out").is_symlink()
    assert read_folder(tmp_path / "real") == FIRST


def test_link_to_nowhere_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").symlink_to("nowhere")
    with pytest.raises(OutputError, match="is not a folder"):
        write_folder(tmp_path / "out", FIRST)


def test_whole_disk_is_refused() -> None:
    with pytest.raises(OutputError, match="is a whole disk"):
        write_folder(Path("/"), FIRST)


def test_folder_one_works_in_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a" / "b").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "a" / "b")
    for out in (Path(), Path(".."), tmp_path):
        with pytest.raises(OutputError, match="holds the folder you are in"):
            write_folder(out, FIRST)
    write_folder(Path("out"), FIRST)
    assert read_folder(tmp_path / "a" / "b" / "out") == FIRST


@pytest.mark.parametrize("name", ["", "/etc/x", "../x", "a/../../x", "a//b", "a\\b", "./x"])
def test_path_that_leads_out_is_a_bug(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="not a plain relative path"):
        write_folder(tmp_path / "out", {"plan.json": b"{}", name: b""})


def test_files_without_a_plan_are_a_bug(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match=r"told by its plan\.json"):
        write_folder(tmp_path / "out", {"a": b""})


def test_permissions_of_the_folder_stay(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    out.chmod(0o750)
    write_folder(out, SECOND)
    assert out.stat().st_mode & 0o777 == 0o750
