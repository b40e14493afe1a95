"""Which threads a hooping stops for, in words."""

from dataclasses import replace

import pytest

from stitchpath.model.design import SewnDesign
from stitchpath.model.plan import Stage
from stitchpath.model.stitches import Run
from stitchpath.preview.words import later_threads_text
from tests.support.file_lines import file_line
from tests.support.plans import quilt_stage


def stage_of(*threads: int) -> Stage:
    """Return a stage of one hooping that sews lines of some threads."""
    colours = (("", "#008080", "#123456"), ("", ""))
    designs = tuple(
        SewnDesign(
            source=f"{name}.pes", copies=1, stitches=9, runs=3, left_out=0, way="kept",
            size=(9, 9), colours=own,
        )
        for name, own in zip("ab", colours, strict=True)
    )  # fmt: skip
    stage = quilt_stage("#2a6f77")
    runs = tuple(Run(lines=(file_line([(0, 0), (9, 0)], thread=thread),)) for thread in threads)
    sewn = replace(stage.hoopings[0], runs=runs)
    return replace(stage, designs=designs, hoopings=(sewn,))


@pytest.mark.parametrize(
    ("threads", "text"),
    [
        ((), ""),
        ((0, 0), ""),
        ((0, 1, 1, 2), "the machine stops for teal for a.pes, then for #123456 for a.pes"),
        (
            (2, 3),
            "begins with #123456 for a.pes; the machine stops for another colour for b.pes",
        ),
        ((3,), "begins with another colour for b.pes"),
    ],
)
def test_threads_are_told_in_the_order_they_are_needed(
    threads: tuple[int, ...], text: str
) -> None:
    stage = stage_of(*threads)
    assert later_threads_text(stage, stage.hoopings[0]) == text


def test_lines_of_our_own_need_the_stages_thread_alone() -> None:
    stage = quilt_stage("#2a6f77")
    assert stage.hoopings[0].threads == (0,)
    assert later_threads_text(stage, stage.hoopings[0]) == ""
