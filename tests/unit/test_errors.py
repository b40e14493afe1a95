import pytest

from stitchpath.errors import Problem, ProjectError


def test_project_error_carries_problems() -> None:
    problems = (Problem(code="a", message="one"), Problem(code="b", message="two"))
    error = ProjectError(problems)
    assert error.problems == problems
    assert str(error) == "one; two"


def test_project_error_without_problems_is_a_bug() -> None:
    with pytest.raises(ValueError, match="carries problems"):
        ProjectError(())
