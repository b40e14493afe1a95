import tomllib

import pytest

from stitchpath.errors import Problem, ProjectError, Span
from stitchpath.project.syntax import parse_toml, plain_text


def problem_of(text: str) -> Problem:
    with pytest.raises(ProjectError) as caught:
        parse_toml(plain_text(text))
    (problem,) = caught.value.problems
    return problem


@pytest.mark.parametrize(
    ("text", "said", "line", "column"),
    [
        ("a = 1 2", "there is more after the value", 1, 7),
        ("a = turned", "there is no value here", 1, 5),
        ("\na", "a key is followed by `=` and its value", 2, 2),
        ("= 1", "a line starts with a key, a `[table]` or a `#`", 1, 1),
        ("a. = 1", "a key or its value is missing here", 1, 4),
        ("a = 1\na = 2", "this key has a value already", 2, 6),
        ("a = { b = 1, b = 2 }", "this key has a value already", 1, 19),
        ("[a]\n[a]", "this table is opened twice", 2, 3),
        ("[a\n", "a table's header ends with `]`, a list of tables' with `]]`", 1, 3),
        ("a = { }\na.b = 1", "this table is closed already", 2, 8),
        ("[a.b]\n[a]\nb.c = 1", "this table is closed already", 3, 8),
        ("a = [1 2]", "this list has no closing `]`", 1, 8),
        ("a = { b = 1", "this table has no closing `}`", 1, 12),
        ('a = "x', "this text has no closing quote", 1, 7),
        ('a = """x', "this text has no closing quote", 1, 9),
        ("a = 'x", "this text has no closing quote", 1, 7),
        ("a = '''x", "this text has no closing quote", 1, 9),
        ('a = "x\n"', "this text has no closing quote on its line", 1, 7),
        ("a = 'x\n'", "this text has no closing quote on its line", 1, 7),
        (r'a = "\x"', "a backslash stands in double quotes", 1, 8),
        (r'a = "\uzz"', "`\\u` is followed by four hexadecimal digits", 1, 8),
        (r'a = "\ud800"', "this escape is not a character", 1, 12),
        ("a = 2025-02-30", "there is no such date", 1, 5),
        ("a = 'x\x00'", "there is a control character here", 1, 7),
        ("a = '''x\x00'''", "there is a control character here", 1, 9),
    ],
)
def test_what_is_no_toml_is_told_in_our_words(
    text: str, said: str, line: int, column: int
) -> None:
    problem = problem_of(text)
    assert problem.message.startswith(said)
    assert problem.span is not None
    assert problem.span.line == line
    assert abs(problem.span.column - column) <= 3  # Python's versions differ by a token


def test_help_for_a_fraction_without_quotes_shows_quotes() -> None:
    assert '`width = "2 1/2 in"`' in problem_of("width = 2 1/2 in").help


def test_depth_is_limited() -> None:
    """A longer key would take the square of its parts to read."""
    fine = ".".join("a" * 16) + " = 1.5"
    assert parse_toml(fine) == tomllib.loads(fine)
    problem = problem_of("x = 1\n" + ".".join("a" * 17) + " = 1")
    assert problem.message == "a key has 17 parts between dots"
    assert problem.span == Span(line=2, column=1)


def test_dots_in_text_and_comments_are_not_parts() -> None:
    text = "a = '" + "b." * 50 + "' # " + "c." * 50
    assert parse_toml(text) == tomllib.loads(text)


def test_endless_nesting_is_a_problem() -> None:
    assert "nested too deep" in problem_of("a = " + "[" * 100_000).message


def test_endless_numbers_are_a_problem() -> None:
    """Python reads whole numbers of up to 4300 digits from text."""
    assert "too many digits" in problem_of("a = " + "9" * 5000).message


def test_lone_carriage_return_is_not_a_line_end() -> None:
    assert problem_of("a = 1\rb = 2").code == "toml"
