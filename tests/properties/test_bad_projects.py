"""Whatever is in a project file, reading it gives a project or problems that can be shown."""

import re
from typing import Final

from hypothesis import given
from hypothesis import strategies as st

from stitchpath.project import starter_project
from tests.properties.test_places import documents, values
from tests.support.hostile import read_hostile_project

STARTER: Final = starter_project("in")
UNCOMMENTED: Final = re.sub(r"(?m)^#(?=[a-z_]+ = )", "", STARTER).splitlines()
"""Every key of the model, though one layout cannot read them all."""
LINES: Final = STARTER.splitlines()
SNIPPETS: Final = st.one_of(
    values(),
    st.sampled_from(
        [
            "=",
            "[",
            "]]",
            '"',
            "'''",
            "\x00",
            "\r",
            "1e999",
            "9" * 5000,
            "0x" + "f" * 5000,
            "nan",
            "\ufeff",
        ]
    ),
    st.text(max_size=5),
)


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    read_hostile_project(data)


@given(st.integers(0, len(STARTER) - 1), st.integers(0, 40), st.binary(max_size=6))
def test_damaged_project_is_read_or_refused(start: int, length: int, new: bytes) -> None:
    data = STARTER.encode()
    read_hostile_project(data[:start] + new + data[start + length :])


@given(documents())
def test_any_toml_is_read_or_refused(document: str) -> None:
    read_hostile_project(document.encode())


@given(st.sampled_from([n for n, line in enumerate(LINES) if " = " in line]), SNIPPETS)
def test_any_value_of_any_key_is_read_or_refused(number: int, value: str) -> None:
    lines = LINES.copy()
    lines[number] = f"{lines[number].partition(' = ')[0]} = {value}"
    read_hostile_project("\n".join(lines).encode("utf-8", "replace"))


@given(st.sampled_from([n for n, line in enumerate(UNCOMMENTED) if " = " in line]), SNIPPETS)
def test_any_value_of_a_layouts_key_is_read_or_refused(number: int, value: str) -> None:
    lines = UNCOMMENTED.copy()
    lines[number] = f"{lines[number].partition(' = ')[0]} = {value}"
    read_hostile_project("\n".join(lines).encode("utf-8", "replace"))


@given(st.lists(st.sampled_from(LINES), max_size=30))
def test_lines_in_any_order_are_read_or_refused(lines: list[str]) -> None:
    read_hostile_project("\n".join(lines).encode())
