"""Lines that stitches cannot follow are told, with the height that they can follow."""

import re
from dataclasses import replace

import numpy as np
import pytest

from stitchpath.checks import blunt_line
from stitchpath.model.finding import Finding, Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pipeline import plan


def _findings(*quilting: Quilting, shortest: float = 1.0) -> list[Finding]:
    quilt = Quilt(width=1400, length=300, edge_stitch=0, quilting=quilting)
    machine = Machine(field=(1400, 300), shortest_stitch=shortest)
    return list(blunt_line.check(plan(Project(quilt=quilt, machine=machine))))


def _label(height: float, text: str = "Quay & Gables 1986") -> Quilting:
    return Quilting(layout="text", text=text, height=height, stitch_length=2.2)


def test_small_letters_are_told_with_how_far_the_stitches_are_off() -> None:
    (finding,) = _findings(_label(18))
    assert finding.level is Level.WARNING
    assert finding.text == (
        f"the text `Quay & Gables 1986` is sewn up to {finding.value:.2f} mm beside its line: "
        "it bends too tightly for stitches of 1 mm"
    )
    assert finding.limit == 0.05
    assert finding.value is not None
    assert 0.1 < finding.value < 0.25
    assert finding.where is not None


@pytest.mark.parametrize(("shortest", "small"), [(1.0, 14.0), (0.8, 10.0)])
@pytest.mark.parametrize("text", ["Quay & Gables 1986", "reef"])
def test_the_height_advised_sews_true_and_four_fifths_of_it_do_not(
    text: str, shortest: float, small: float
) -> None:
    (finding,) = _findings(_label(small, text), shortest=shortest)
    advised = int(re.match(r"make `height` (\d+) mm or more", finding.help)[1])  # type: ignore[index]
    assert _findings(_label(advised, text), shortest=shortest) == []
    assert _findings(_label(0.8 * advised, text), shortest=shortest) != []


def test_what_is_not_sewn_at_all_is_left_to_other_checks() -> None:
    quilt = Quilt(width=1400, length=300, edge_stitch=0, quilting=(_label(18),))
    whole = plan(Project(quilt=quilt, machine=Machine(field=(1400, 300))))
    bare = replace(whole, stages=tuple(replace(one, hoopings=()) for one in whole.stages))
    assert list(blunt_line.check(whole)) != []
    assert list(blunt_line.check(bare)) == []


def test_a_shorter_stitch_follows_the_same_letters() -> None:
    assert _findings(_label(18), shortest=0.5) == []


def test_usual_layouts_have_nothing_to_be_told() -> None:
    above, below = Shape(rectangle=(0, 0, 1400, 100)), Shape(rectangle=(0, 100, 1400, 200))
    assert _findings(_label(40)) == []
    assert (
        _findings(
            Quilting(layout="loops", spacing=30, area=above),
            Quilting(layout="chevron", spacing=20, area=below),
        )
        == []
    )


def test_a_wave_sharper_than_a_stitch_can_follow_is_told_as_its_layout() -> None:
    """A wave A sin(2 pi x / P) bends with P^2 / (4 pi^2 A) in its peaks (geometry)."""
    period, amplitude = 6.0, 4.0
    radius = period**2 / (4 * np.pi**2 * amplitude)
    rows = Shape(rectangle=(0, 0, 120, 100))
    wave = Quilting(
        layout="serpentine", spacing=20, period=period, amplitude=amplitude, area=rows
    )
    (finding,) = _findings(wave)
    # a stitch with its middle under the peak, as long as the shortest, is off by half the bend
    assert finding.value is not None
    assert 0.05 < finding.value < 1.15**2 / (8 * radius)
    assert finding.text.startswith("the layout serpentine is sewn up to")
    assert finding.help == "make its bends wider, or `machine.shortest_stitch` smaller"


def test_a_layout_is_blamed_for_its_own_lines() -> None:
    above, below = Shape(rectangle=(0, 0, 1400, 100)), Shape(rectangle=(0, 100, 1400, 200))
    straight = Quilting(layout="parallel", spacing=20, area=above)
    label = Quilting(layout="text", text="reef", height=14, stitch_length=2.2, area=below)
    (finding,) = _findings(straight, label)
    assert finding.text.startswith("the text `reef`")
    assert finding.where is not None
    assert finding.where[1] > 100
