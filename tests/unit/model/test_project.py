from dataclasses import FrozenInstanceError, replace

import pytest
from pydantic import ValidationError

from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting


def test_defaults_are_within_their_own_limits() -> None:
    """A default that is built again by hand passes the checks that files go through."""
    project = Project(quilt=Quilt(width=1050, length=1400), pocket=Pocket())
    for part in (project.quilt, project.pocket, project.machine, project.batting):
        assert part is not None
        assert replace(part) == part


def test_python_code_names_the_field_without_an_alias() -> None:
    assert Pocket(raise_=12).raise_ == 12.0


def test_values_are_in_mm_and_frozen() -> None:
    quilting = Quilting(spacing=50)
    assert quilting.spacing == 50.0
    with pytest.raises(FrozenInstanceError):
        quilting.spacing = 60.0  # type: ignore[misc]  # what is tested


def test_limits_hold_in_python_too() -> None:
    with pytest.raises(ValidationError, match="greater than or equal to 20"):
        Quilt(width=1, length=1400)
