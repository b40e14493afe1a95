"""Places found in generated TOML: the text found there really is the value or the key."""

import json
import tomllib

from hypothesis import given
from hypothesis import strategies as st

from stitchpath.project.fault import Path
from stitchpath.project.locate import find_places
from stitchpath.project.syntax import plain_text

PLAIN = st.characters(blacklist_categories=("Cs", "Cc"))
KEYS = st.one_of(
    st.from_regex(r"[a-z0-9_-]{1,4}", fullmatch=True),
    st.text(PLAIN, max_size=4),
    st.sampled_from(["#", "a.b", "=", "[x]", '"', "'"]),
)
GAPS = st.sampled_from(["", " ", "\t", "  "])
BREAKS = st.sampled_from(["", "\n", " # a, comment ] } = \n", "\r\n  ", "\n\n"])


def _key(draw: st.DrawFn, key: str) -> str:
    bare = key and all(c.isascii() and (c.isalnum() or c in "_-") for c in key)
    if bare and draw(st.booleans()):
        return key
    if "'" not in key and draw(st.booleans()):
        return f"'{key}'"
    return json.dumps(key, ensure_ascii=False).replace("\x7f", "\\u007f")


@st.composite
def scalars(draw: st.DrawFn) -> str:
    """One value as it may be written, on one line or on several."""
    quoted = st.text(PLAIN, max_size=8)
    text: str = draw(
        st.one_of(
            st.integers(-999, 999).map(str),
            st.floats(-1e6, 1e6).map(repr),
            st.sampled_from(["true", "false", "inf", "-nan", "0xFF", "1_000", "1e-5"]),
            st.sampled_from(["2025-06-01", "07:32:00", "2025-06-01 07:32:00Z"]),
            quoted.map(lambda text: json.dumps(text, ensure_ascii=False)),
            quoted.map(lambda text: "'" + text.replace("'", "") + "'"),
            quoted.map(
                lambda text: '"""\n' + text.replace('"', '""\\"').replace("\\", "\\\\") + '"""'
            ),
            quoted.map(lambda text: "'''" + text.replace("'", "") + "\n# ''''"),
        )
    )
    return text


@st.composite
def values(draw: st.DrawFn, depth: int = 0) -> str:
    """One value: a scalar, a list over several lines, or an inline table."""
    kind = draw(st.integers(0, 5 if depth < 3 else 0))
    if kind == 5:
        items = [draw(values(depth + 1)) for _ in range(draw(st.integers(0, 3)))]
        return "[" + ",".join(f"{draw(BREAKS)}{item}{draw(BREAKS)}" for item in items) + "]"
    if kind == 4:
        keys = draw(st.lists(KEYS, max_size=3, unique=True))
        pairs = [
            f"{_key(draw, key)}{draw(GAPS)}={draw(GAPS)}{draw(values(depth + 1))}"
            for key in keys
        ]
        return "{" + draw(GAPS) + f"{draw(GAPS)},".join(pairs) + draw(GAPS) + "}"
    return draw(scalars())


@st.composite
def documents(draw: st.DrawFn) -> str:
    """A TOML text: keys at the top, tables, lists of tables; some are not TOML after all."""
    lines: list[str] = []
    for number in range(draw(st.integers(0, 4))):
        if number:
            name = ".".join(
                _key(draw, key) for key in draw(st.lists(KEYS, min_size=1, max_size=3))
            )
            lines.append(
                draw(st.sampled_from([f"[{name}]", f"[[ {name} ]] # x", f"\t[ {name} ]"]))
            )
        for key in draw(st.lists(KEYS, max_size=3, unique=True)):
            dotted = (
                draw(GAPS) + "." + draw(GAPS) + _key(draw, draw(KEYS))
                if draw(st.booleans())
                else ""
            )
            comment = draw(st.sampled_from(["", " # 'a \"b = [", "#"]))
            lines.append(f"{draw(GAPS)}{_key(draw, key)}{dotted} = {draw(values())}{comment}")
    return draw(st.sampled_from(["\n", "\r\n", "\n\n"])).join(lines)


def leaves(value: object, path: Path = ()) -> list[tuple[Path, object]]:
    """Every value that is neither a list nor a table, with its path."""
    if isinstance(value, dict):
        return [leaf for key in value for leaf in leaves(value[key], (*path, key))]
    if isinstance(value, list):
        return [leaf for n, item in enumerate(value) for leaf in leaves(item, (*path, n))]
    return [(path, value)]


def _read(document: str) -> tuple[str, dict[str, object]]:
    """Return a document's text as it is read, and its data; none where it is no TOML."""
    text = plain_text(document)
    try:
        return text, tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return "", {}


@given(documents())
def test_place_of_a_value_holds_that_value(document: str) -> None:
    text, data = _read(document)
    places = find_places(text)
    for path, value in leaves(data):
        typed = places.typed(path)
        assert typed is not None, path
        assert repr(tomllib.loads(f"x = {typed}")["x"]) == repr(value)  # nan is not itself
        start, end = places.values[path]
        span = places.span(start, end)
        line = text.split("\n")[span.line - 1]
        assert line[span.column - 1 :][: span.width] == typed.split("\n")[0]


@given(documents())
def test_place_of_a_key_holds_that_key(document: str) -> None:
    text, data = _read(document)
    places = find_places(text)
    for path, _ in leaves(data):
        if isinstance(path[-1], str):
            start, end = places.keys[path]
            assert tomllib.loads(f"{text[start:end]} = 0") == {path[-1]: 0}
