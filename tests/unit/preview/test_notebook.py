"""Pictures for notebooks."""

from types import SimpleNamespace

import pytest
from IPython.core.formatters import DisplayFormatter

from stitchpath.preview import draw_hooping, draw_stage, show
from stitchpath.preview.notebook import load_ipython_extension
from tests.support.plans import small_plan

PLAN = small_plan()


def test_notebook_finds_the_picture_under_the_name_it_looks_for() -> None:
    # Source: IPython documentation, rich display: `_repr_svg_` returns the SVG as text.
    assert show(PLAN)._repr_svg_() == draw_stage(PLAN, PLAN.stages[0])
    seam = PLAN.stages[1]
    shown = show(PLAN, "seam", hooping=1)
    assert shown.svg == draw_hooping(PLAN, seam, seam.hoopings[0])
    assert repr(shown) == "Picture(name='Larch Lane picnic rug: stage seam, hooping 1')"


def test_what_is_not_there_is_said() -> None:
    with pytest.raises(ValueError, match="no stage 'pocket': the plan has quilt, seam"):
        show(PLAN, "pocket")
    with pytest.raises(ValueError, match="no hooping 5: from 1 to 4"):
        show(PLAN, hooping=5)


def test_notebook_shows_a_plan_by_itself_once_told() -> None:
    formatter = DisplayFormatter()
    load_ipython_extension(SimpleNamespace(display_formatter=formatter))
    shown, _ = formatter.format(PLAN)  # type: ignore[no-untyped-call]
    assert shown["image/svg+xml"] == show(PLAN).svg
