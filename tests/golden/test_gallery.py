"""The gallery shows every layout, as the tool draws it today."""

import pytest

from stitchpath.layouts import layout_names
from stitchpath.preview import draw_design
from tests.conftest import Golden
from tests.support.gallery import EXAMPLES, PAGE, PICTURES, example_stage, gallery_page


def test_every_layout_has_a_sampler_and_every_sampler_a_layout() -> None:
    assert sorted(path.stem for path in EXAMPLES.glob("*.toml")) == list(layout_names())


def test_every_picture_belongs_to_a_layout() -> None:
    assert sorted(path.stem for path in PICTURES.glob("*.svg")) == list(layout_names())


@pytest.mark.parametrize("name", layout_names())
def test_picture_is_what_the_tool_draws(name: str, golden: Golden) -> None:
    golden.check(draw_design(example_stage(name)), PICTURES / f"{name}.svg")


def test_page_says_what_the_layouts_say_of_themselves(golden: Golden) -> None:
    golden.check(gallery_page(), PAGE)
