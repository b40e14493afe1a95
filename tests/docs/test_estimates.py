"""docs/estimates.md tells every estimate there is, and every key of plan.json it promises."""

import re
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from stitchpath.estimate.draw_in import draw_in
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.pipeline import plan
from stitchpath.preview import plan_data

_ROOT = Path(__file__).parents[2]
_PAGE = (_ROOT / "docs" / "estimates.md").read_text(encoding="utf-8")
_SECTIONS = dict(re.findall(r"(?ms)^## `(\w+)`\n(.*?)(?=^## |\Z)", _PAGE))
_PUT_TOGETHER = {"__init__", "estimate"}
_FILES = {
    path.stem for path in (_ROOT / "stitchpath" / "estimate").glob("*.py")
} - _PUT_TOGETHER


def test_every_estimate_has_a_section_and_every_section_a_file() -> None:
    assert sorted(_SECTIONS) == sorted(_FILES)


@pytest.mark.parametrize("name", sorted(_FILES))
def test_file_and_section_tell_how_and_where_it_ends(name: str) -> None:
    said = import_module(f"stitchpath.estimate.{name}").__doc__ or ""
    assert re.search(r"^(Formula|Method)\. ", said, re.MULTILINE), name
    for word in ("Source: ", "Limits: "):
        assert word in said, (name, word)
    assert re.search(r"^\*\*(Formula|Method)\.\*\* ", _SECTIONS[name], re.MULTILINE)
    assert "**Limits.** " in _SECTIONS[name]


def test_keys_that_are_told_are_in_plan_json() -> None:
    data = plan_data(plan(Project(quilt=Quilt(width=400, length=500))), {})
    told = re.findall(r"^\| `([\w.]+)` \|", _PAGE, re.MULTILINE)
    assert len(told) == 11
    for path in told:
        value: Any = data
        for key in path.split("."):
            value = value[key]


@pytest.mark.parametrize(("inches", "percent"), [(4, 0.6), (2, 1.4), (1.5, 2.8)])
def test_page_has_the_samples_that_are_used(inches: float, percent: float) -> None:
    assert f"{percent} %" in _SECTIONS["draw_in"]
    assert 100 * draw_in(inches * 25.4) == pytest.approx(percent, abs=0.05)
