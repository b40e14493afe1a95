import pytest

from stitchpath.errors import Problem, Span
from stitchpath.project import render_problems


def problem(line: int = 1, column: int = 1, width: int = 1, **more: str) -> Problem:
    span = Span(line=line, column=column, width=width)
    return Problem(**{"code": "c", "message": "m", "key": "k", "label": "l"} | more, span=span)  # type: ignore[arg-type]


def rows(found: Problem, text: str) -> list[str]:
    return render_problems([found], text=text, name="f.toml").splitlines()


def test_shape_of_a_problem() -> None:
    found = Problem(
        code="out-of-range",
        message="`a.b` is below the smallest allowed value: 0",
        key="a.b",
        span=Span(line=10, column=5, width=2),
        label="must be between 1 and 2",
        notes=("one", "two"),
        help="set `a.b` to 1 or more",
    )
    text = "\n" * 9 + "b = 00"
    assert render_problems([found, found], text=text, name="x.toml").splitlines()[:11] == [
        "error[out-of-range]: `a.b` is below the smallest allowed value: 0",
        "   --> x.toml:10:5 (a.b)",
        "   |",
        "10 | b = 00",
        "   |     ^^ must be between 1 and 2",
        "   = note: one",
        "   = note: two",
        "",
        "help: set `a.b` to 1 or more",
        "",
        "error[out-of-range]: `a.b` is below the smallest allowed value: 0",
    ]


def test_count_stands_at_the_end() -> None:
    assert rows(problem(), "a")[-1] == "1 problem in f.toml"
    both = render_problems([problem(), problem()], text="a", name="f.toml")
    assert both.endswith("\n\n2 problems in f.toml")


def test_problem_without_a_place_has_its_limits_as_a_note() -> None:
    found = Problem(code="c", message="m", key="k", label="limits")
    assert rows(found, "a")[:3] == ["error[c]: m", "  --> f.toml (k)", "  = note: limits"]


def test_place_outside_the_text_shows_no_line() -> None:
    assert rows(problem(line=9), "a")[1] == "  --> f.toml (k)"


@pytest.mark.parametrize(
    ("line", "column", "width", "shown", "caret"),
    [
        ("\ta\t= 1", 6, 1, "    a   = 1", "          ^ l"),
        ("é = '日本', 1", 11, 1, "é = '日本', 1", "            ^ l"),
        ("x = '日本'", 5, 4, "x = '日本'", "    ^^^^^^ l"),
        ("e\u0301 = 1", 6, 1, "e\u0301 = 1", "    ^ l"),
        ("a =", 4, 1, "a =", "   ^ l"),
        ("a = '\x1b[0m\u202e' 1", 13, 1, "a = '�[0m�' 1", "            ^ l"),
    ],
)
def test_caret_stands_under_the_mark(
    line: str, column: int, width: int, shown: str, caret: str
) -> None:
    """Wide characters take two columns (Unicode standard annex 11), marks none."""
    found = rows(problem(column=column, width=width), line)
    assert found[3:5] == [f"1 | {shown}", f"  | {caret}"]


@pytest.mark.parametrize("column", [5, 300, 4990])
@pytest.mark.parametrize("width", [1, 30, 5000])
def test_long_line_is_clipped_around_the_mark(column: int, width: int) -> None:
    line = "".join(chr(97 + number % 26) for number in range(5000))
    shown, caret = rows(problem(column=column, width=width), line)[3:5]
    assert len(shown) <= 4 + 88
    assert caret.index("^") < 4 + 88
    start = caret.index("^")
    assert shown[start] == line[column - 1]


def test_line_of_wide_characters_is_clipped_by_columns() -> None:
    found = rows(problem(column=100, width=1), "縁" * 300)
    assert found[3].count("縁") <= 44
    assert found[3].startswith("1 | …縁")


def test_colour_changes_no_word() -> None:
    found = problem(help="do \x1b[31m this")
    plain = render_problems([found], text="a", name="f\x1b.toml")
    coloured = render_problems([found], text="a", name="f\x1b.toml", colour=True)
    assert "\x1b" not in plain
    for code in ("1;31", "36", "1;32", "0"):
        coloured = coloured.replace(f"\x1b[{code}m", "")
    assert coloured == plain
