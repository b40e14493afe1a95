"""Each rule on both sides of its limit."""

from typing import Any

import pytest

from stitchpath.catalog.formats import FORMATS
from stitchpath.model.machine import Machine
from stitchpath.model.project import HoopingRules, Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt, Quilting
from stitchpath.model.thread import ThreadPair
from stitchpath.project.amount_rules import MOST_PLACES, MOST_STITCHES
from stitchpath.project.fault import Fault, key_path
from stitchpath.project.rules import rule_faults
from stitchpath.project.size_rules import MOST_HOOPINGS


def throw(pocket: dict[str, Any] | None = None, **quilt: Any) -> Project:  # noqa: ANN401 - any field of a quilt
    """Return a sound throw, changed where a test says."""
    sizes = {"width": 1050, "length": 1400, "edge_stitch": 8} | quilt
    return Project(
        quilt=Quilt(**sizes),
        pocket=None if pocket is None else Pocket(**{"width": 440, "length": 440} | pocket),
    )


def sewn_by(machine: dict[str, Any], overlap: float = 6.0) -> Project:
    return Project(
        quilt=Quilt(width=1050, length=1400),
        machine=Machine(**machine),
        hoopings=HoopingRules(overlap=overlap),
    )


def told(project: Project) -> list[tuple[str, str]]:
    return [(fault.code, key_path(fault.path)) for fault in rule_faults(project)]


def only(project: Project) -> Fault:
    (fault,) = rule_faults(project)
    return fault


def test_sound_projects_break_no_rule() -> None:
    assert told(throw()) == []
    assert told(throw(pocket={})) == []


def test_pocket_may_be_as_wide_as_the_quilt_and_no_wider() -> None:
    assert told(throw(pocket={"width": 1050})) == []
    assert told(throw(pocket={"width": 1050.1})) == [("pocket-too-large", "pocket.width")]


def test_pocket_with_its_raise_may_be_as_long_as_the_quilt_and_no_longer() -> None:
    assert told(throw(pocket={"length": 1390, "raise_": 10})) == []
    fault = only(throw(pocket={"length": 1390, "raise_": 10.5}))
    assert (fault.code, fault.path) == ("pocket-too-large", ("pocket", "length"))
    assert fault.label == "must be at most 1389.5 mm"


def test_mouth_line_lies_within_the_pocket() -> None:
    short = {"length": 60.0, "quilting": ()}
    assert told(throw(pocket=short | {"mouth_stitch": 59.9})) == []
    assert told(throw(pocket=short | {"mouth_stitch": 60.0, "quilting": (Quilting(),)})) == [
        ("mouth-stitch-outside", "pocket.mouth_stitch")
    ]


def test_corner_triangles_leave_the_mouth_open() -> None:
    """Width 50, inset 5: a mouth of 40 mm between the side seams."""
    pocket = {"width": 50.0, "quilting": ()}
    fine = PocketSeam(inset=5, corner_across=19.9)
    assert told(throw(pocket=pocket | {"seam": fine})) == []
    fault = only(throw(pocket=pocket | {"seam": PocketSeam(inset=5, corner_across=20)}))
    assert fault.path == ("pocket", "seam", "corner_across")
    assert fault.label == "must be below 20 mm"


def test_inset_may_not_close_the_mouth() -> None:
    project = throw(pocket={"width": 50.0, "quilting": (), "seam": PocketSeam(inset=30)})
    assert only(project).notes[0].endswith("the mouth is 0 mm")


def test_corner_triangles_leave_a_stitch_of_the_side_seam() -> None:
    """A side seam of 60 - 2 x 5 mm, and a shortest stitch of 1 mm."""
    pocket = {"length": 60.0, "quilting": ()}
    fine = PocketSeam(inset=5, corner_side=48.9)
    assert told(throw(pocket=pocket | {"seam": fine})) == []
    seam = PocketSeam(inset=5, corner_side=49)
    assert told(throw(pocket=pocket | {"seam": seam})) == [
        ("seam-does-not-fit", "pocket.seam.corner_side")
    ]


def test_edge_line_leaves_something_to_quilt() -> None:
    assert told(throw(width=100, edge_stitch=49.9)) == []
    assert told(throw(width=100, edge_stitch=50)) == [("no-area", "quilt.edge_stitch")]


def test_margin_leaves_something_to_quilt() -> None:
    assert told(throw(width=100, quilting=(Quilting(margin=49.9),))) == []
    assert told(throw(width=100, quilting=(Quilting(), Quilting(margin=50)))) == [
        ("no-area", "quilt.quilting[1].margin")
    ]


def test_margin_and_mouth_line_leave_something_of_the_pocket() -> None:
    pocket = {"length": 100.0, "mouth_stitch": 60.0}
    assert told(throw(pocket=pocket | {"quilting": (Quilting(margin=39.9),)})) == []
    assert told(throw(pocket=pocket | {"quilting": (Quilting(margin=40),)})) == [
        ("no-area", "pocket.quilting[0].margin")
    ]


def test_one_piece_has_one_pair_of_threads() -> None:
    teal, red = ThreadPair(top="teal"), ThreadPair(top="red")
    both = (Quilting(thread=teal), Quilting(thread=red))
    same = (Quilting(thread=teal), Quilting(thread=teal))
    pocket = {"quilting": (Quilting(thread=red),)}
    assert told(throw(quilting=same, pocket=pocket)) == []
    assert told(throw(quilting=both)) == [("thread-pairs", "quilt.quilting[1].thread")]
    assert told(throw(pocket={"quilting": both})) == [
        ("thread-pairs", "pocket.quilting[1].thread")
    ]


def test_the_longest_stitch_holds_two_of_the_shortest() -> None:
    assert told(sewn_by({"shortest_stitch": 1.2, "longest_stitch": 2.9})) == []
    assert told(sewn_by({"shortest_stitch": 1.21, "longest_stitch": 2.9})) == [
        ("stitch-out-of-range", "machine.shortest_stitch")
    ]


@pytest.mark.parametrize(
    ("limits", "faults"),
    [
        ({"longest_stitch": 2.8}, 0),
        ({"longest_stitch": 2.79}, 1),
        ({"shortest_stitch": 2.8}, 0),
        ({"shortest_stitch": 2.81}, 1),
    ],
)
def test_stitch_lengths_lie_between_the_machines(limits: dict[str, Any], faults: int) -> None:
    """The default stitch length on a quilting line is 2.8 mm."""
    expected = ("stitch-out-of-range", "quilt.quilting[0].stitch_length")
    assert told(sewn_by(limits)) == [expected] * faults


def test_stitch_lengths_of_the_pocket_and_its_seam_count_too() -> None:
    pocket = {
        "quilting": (Quilting(stitch_length=8),),
        "seam": PocketSeam(stitch_length=0.9),
    }
    assert told(throw(pocket=pocket)) == [
        ("stitch-out-of-range", "pocket.quilting[0].stitch_length"),
        ("stitch-out-of-range", "pocket.seam.stitch_length"),
    ]


def test_formats_are_asked_for_once() -> None:
    assert told(sewn_by({"formats": ("dst", "exp")})) == []
    assert told(sewn_by({"formats": ("dst", "exp", "dst", "dst")})) == [
        ("duplicate-format", "machine.formats[2]"),
        ("duplicate-format", "machine.formats[3]"),
    ]


@pytest.mark.parametrize("name", FORMATS)
def test_longest_stitch_fits_the_format(name: str) -> None:
    most = round(FORMATS[name].longest_step_mm - 0.1, 3)
    if most <= 20:
        assert told(sewn_by({"formats": (name,), "longest_stitch": most + 0.01})) == [
            ("step-too-long", "machine.longest_stitch")
        ]
    assert told(sewn_by({"formats": (name,), "longest_stitch": min(most, 20)})) == []


def test_overlap_is_less_than_half_of_the_smaller_side() -> None:
    assert told(sewn_by({"field": (90, 60)}, overlap=29.9)) == []
    assert told(sewn_by({"field": (90, 60)}, overlap=30)) == [
        ("overlap-too-large", "hoopings.overlap")
    ]


def test_overlap_larger_than_the_field_is_one_fault() -> None:
    assert told(sewn_by({"field": (40, 40)}, overlap=50)) == [
        ("overlap-too-large", "hoopings.overlap")
    ]


def test_king_size_in_half_inch_squares_is_within_the_limits() -> None:
    """108 x 108 in, lines 1/2 in apart, 3 mm stitches: about 400,000 (2 x area / s / L)."""
    side = 108 * 25.4
    quilting = (Quilting(spacing=12.7, stitch_length=3),)
    project = Project(
        quilt=Quilt(width=side, length=side, quilting=quilting),
        machine=Machine(field=(100, 100)),
    )
    assert 2 * side * side / 12.7 / 3 == pytest.approx(395_000, rel=0.01)
    assert told(project) == []


def test_work_without_end_is_refused_with_its_limit() -> None:
    """10 m x 10 m at 2 x 1e8 / (s x 2) points: the limit of 1e7 is met at a spacing of 10."""
    field = Machine(field=(1000, 1000))

    def project(spacing: float) -> Project:
        quilting = (Quilting(spacing=spacing, stitch_length=2),)
        return Project(
            quilt=Quilt(width=10_000, length=10_000, quilting=quilting), machine=field
        )

    assert told(project(10)) == []
    fault = only(project(9.99))
    assert fault.path == ("quilt", "quilting", 0, "spacing")
    assert f"{MOST_STITCHES:,}" in fault.label


def test_the_layout_that_makes_most_stitches_is_named() -> None:
    project = Project(
        quilt=Quilt(width=9000, length=9000, quilting=(Quilting(), Quilting(spacing=1))),
        machine=Machine(field=(1000, 1000)),
    )
    assert told(project) == [("too-many-stitches", "quilt.quilting[1].spacing")]


def test_closer_work_than_the_limit_is_refused_with_it_and_its_cause() -> None:
    """Squares of s on 3 x 3 m: (3000 / s)^2 crossings, 4,000,000 where s is 1.5 mm."""

    def project(spacing: float) -> Project:
        quilting = (Quilting(margin=10), Quilting(spacing=spacing))
        machine = Machine(field=(1000, 1000))
        return Project(quilt=Quilt(width=3000, length=3000, quilting=quilting), machine=machine)

    assert told(project(1.52)) == []
    fault = only(project(1.48))
    assert (fault.code, fault.path) == ("too-many-places", ("quilt", "quilting", 1, "spacing"))
    assert f"{MOST_PLACES:,}" in fault.label
    assert fault.help.startswith("make the spacing larger")


def test_what_a_margin_keeps_clear_is_not_counted() -> None:
    """Pebbles of 3.6 mm on a strip of 18 x 418 mm, and on all of the piece round it."""

    def project(margin: float) -> Project:
        pebbles = Quilting(layout="pebbles", spacing=3.6, margin=margin)
        quilt = Quilt(width=1100, length=1500, quilting=(pebbles,))
        return Project(quilt=quilt, machine=Machine(field=(400, 400)))

    assert told(project(541)) == []
    assert told(project(0)) == [("too-many-places", "quilt.quilting[0].spacing")]


def test_layouts_count_together() -> None:
    squares = Quilting(spacing=2)
    quilt = Quilt(width=3000, length=3000, quilting=(squares, squares))
    machine = Machine(field=(1000, 1000))
    assert told(Project(quilt=quilt, machine=machine)) == [
        ("too-many-places", "quilt.quilting[0].spacing")
    ]


def test_hoopings_without_end_are_refused_with_their_limit() -> None:
    """2000 places of 94 x 94 mm (100 less an overlap of 6) are 17.672 square metres."""
    side = (2000 * 94 * 94) ** 0.5
    machine = Machine(field=(100, 100))
    assert told(Project(quilt=Quilt(width=side - 0.1, length=side), machine=machine)) == []
    fault = only(Project(quilt=Quilt(width=side + 0.1, length=side), machine=machine))
    assert fault.code == "too-many-hoopings"
    assert f"{MOST_HOOPINGS:,}" in fault.label
