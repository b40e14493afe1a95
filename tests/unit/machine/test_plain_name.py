"""A name that any machine can show."""

import pytest

from stitchpath.machine.plain_name import plain_name


@pytest.mark.parametrize(
    ("name", "plain"),
    [
        ("Harbour Lights", "Harbour"),
        ("ÅÄÖ-3", "AAO-3"),
        ("\N{DOG}", "QUILT"),
        ("", "QUILT"),
        ("---", "QUILT"),
        ('a"b)\r\nc', "a_b_c"),
    ],
)
def test_name_is_plain_letters_and_digits(name: str, plain: str) -> None:
    assert plain_name(name, 8) == plain
