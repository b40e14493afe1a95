"""Rooms whose files are the feature list, and what rooms offer."""

import subprocess
import sys
from importlib import import_module
from types import ModuleType

import pytest

from stitchpath.listing import member, member_names, offers


def test_members_are_named_after_their_files_in_alphabetical_order() -> None:
    names = member_names("stitchpath.checks")
    assert list(names) == sorted(names)
    assert {"batting-gap", "fold-fit", "hoop-fit", "stitch-length"} <= set(names)


def test_machinery_is_no_member() -> None:
    assert not any(name.startswith(("_", "-")) for name in member_names("stitchpath.layouts"))


def test_a_member_is_found_by_its_name() -> None:
    assert member("stitchpath.checks", "fold-fit").__name__ == "stitchpath.checks.fold_fit"


def test_an_unknown_member_is_a_bug_of_the_caller() -> None:
    with pytest.raises(ValueError, match=r"stitchpath\.checks has no member 'pleats'"):
        member("stitchpath.checks", "pleats")


@pytest.mark.parametrize("room", ["layouts", "preview", "project"])
def test_a_room_has_all_that_it_offers(room: str) -> None:
    package = import_module(f"stitchpath.{room}")
    for name in package.__all__:
        assert not isinstance(getattr(package, name), ModuleType)


def test_an_offer_is_imported_when_it_is_asked_for() -> None:
    code = (
        "import sys, stitchpath.project as room\n"
        "home = 'stitchpath.project.schema'\n"
        "print(home in sys.modules)\n"
        "room.project_schema\n"
        "print(home in sys.modules, 'project_schema' in vars(room))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, check=True, text=True
    )
    assert done.stdout.split() == ["False", "True", "True"]


def test_what_is_not_offered_is_not_there() -> None:
    find = offers("stitchpath.project", {"Load": "read"})
    with pytest.raises(AttributeError, match="has no attribute 'pleats'"):
        find("pleats")
