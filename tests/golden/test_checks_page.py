"""The page on checks is what the checks say of themselves."""

import re

from stitchpath.checks import check_names
from tests.conftest import Golden
from tests.support.checks_page import PAGE, checks_page


def test_page_says_what_the_checks_say_of_themselves(golden: Golden) -> None:
    golden.check(checks_page(), PAGE)


def test_every_check_has_a_section_with_measure_and_limits() -> None:
    sections = re.findall(r"(?ms)^## (\S+)\n(.*?)(?=^## |\Z)", checks_page())
    assert [name for name, _ in sections] == [*check_names(), "cautions"]
    for name, text in sections:
        if name not in {"pause", "nothing-sewn"}:  # which know yes and no only
            assert "Measure: " in text, name
            assert "Limits: " in text, name
