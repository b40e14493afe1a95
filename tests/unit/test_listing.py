"""Rooms whose files are the feature list."""

import pytest

from stitchpath.listing import member, member_names


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
