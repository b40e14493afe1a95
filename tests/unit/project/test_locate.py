import tomllib

import pytest

from stitchpath.errors import Span
from stitchpath.project.fault import Fault, Path
from stitchpath.project.locate import find_places

TEXT = '''\
title = "a # b = c [x]"   # d = 5
"quoted key" = 'x'
dotted . "inner key".leaf = 2025-06-01 07:32:00
many = [
  1, # one, two
  "two, ]",
  [ 3, { x = 4.5 } ],
]
long = """
key = 1 ""\\" ""
[not.a.table]"""""
[a.b]
c = true
[[d.list]]
e = 1
[[d.list]]
e = 2
f = { g = { h = -1e5 }, "i.j" = '\\', k.l = [] }
[d.list.sub]
m = """x"""
[a]
n = \'\'\'it's'\'\'\'
'''


@pytest.mark.parametrize(
    ("path", "typed"),
    [
        (("title",), '"a # b = c [x]"'),
        (("quoted key",), "'x'"),
        (("dotted", "inner key", "leaf"), "2025-06-01 07:32:00"),
        (("many", 0), "1"),
        (("many", 1), '"two, ]"'),
        (("many", 2, 0), "3"),
        (("many", 2, 1, "x"), "4.5"),
        (("many", 2), "[ 3, { x = 4.5 } ]"),
        (("long",), '"""\nkey = 1 ""\\" ""\n[not.a.table]"""""'),
        (("a", "b", "c"), "true"),
        (("d", "list", 0, "e"), "1"),
        (("d", "list", 1, "e"), "2"),
        (("d", "list", 1, "f", "g", "h"), "-1e5"),
        (("d", "list", 1, "f", "i.j"), "'\\'"),
        (("d", "list", 1, "f", "k", "l"), "[]"),
        (("d", "list", 1, "sub", "m"), '"""x"""'),
        (("a", "n"), "'''it's''''"),
        (("a", "nothing"), None),
        (("d", "list", 2, "e"), None),
        (("not", "a", "table"), None),
    ],
)
def test_value_is_found_as_typed(path: Path, typed: str | None) -> None:
    tomllib.loads(TEXT)  # the text is TOML
    assert find_places(TEXT).typed(path) == typed


def place(text: str, path: Path, at: str = "value") -> Span | None:
    fault = Fault(code="toml", path=path, message="", at=at)  # type: ignore[arg-type]  # one of three
    return find_places(text).span_of(fault)


def test_missing_key_points_at_its_tables_header() -> None:
    text = "x = 1\n[a.b]\nc = 1\n[[d]]\n[[d]]\n"
    assert place(text, ("a", "b", "new"), "table") == Span(line=2, column=1, width=5)
    assert place(text, ("d", 1, "new"), "table") == Span(line=5, column=1, width=5)


def test_missing_key_of_an_inline_table_points_at_that_table() -> None:
    assert place("a = { b = 1 }", ("a", "c"), "table") == Span(line=1, column=5, width=9)


def test_missing_key_of_a_table_not_written_points_at_the_one_around_it() -> None:
    text = "[a]\nb = 1\n"
    assert place(text, ("a", "c", "d"), "table") == Span(line=1, column=1, width=3)
    assert place(text, ("c", "d"), "table") is None


def test_unknown_key_points_at_the_key() -> None:
    assert place("[a]\n  'b c' = 1", ("a", "b c"), "key") == Span(line=2, column=3, width=5)
    assert place("a.b.c = 1", ("a", "b"), "key") == Span(line=1, column=3, width=1)


def test_value_of_several_lines_is_marked_on_its_first() -> None:
    assert place("a = [ 1,\n 2 ]", ("a",)) == Span(line=1, column=5, width=4)


def test_table_opened_after_its_child_points_at_its_own_header() -> None:
    assert place("[a.b]\n[a]\n", ("a",)) == Span(line=2, column=1, width=3)


def test_what_lies_too_deep_has_no_place_of_its_own() -> None:
    text = "a = " + "[" * 60 + "1, 2" + "]" * 60 + "\nb = 1"
    places = find_places(text)
    assert places.typed(("a", *[0] * 60)) is None
    assert places.typed(("b",)) == "1"


@pytest.mark.parametrize(
    "text", ["[a", "a = [", "a = {", "a", "=", "a = {=", '"', "a=[=]", "]]", '"\\x" = 1']
)
def test_text_that_is_no_toml_is_passed_without_an_error(text: str) -> None:
    assert find_places(text).text == text
