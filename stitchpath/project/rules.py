"""Rules between keys, on a project whose values are each within their limits.

One small function for each rule. Rules on one piece, and rules that keep the work finite, stand
in files of their own.
"""

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Any, Final, TypeAlias

from stitchpath.catalog.formats import stitch_formats
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.project import Project
from stitchpath.project.amount_rules import amount_is_finite
from stitchpath.project.area_rules import areas_are_sound
from stitchpath.project.design_rules import (
    copies_of_designs_are_few,
    designs_are_on_their_piece,
    designs_are_sound,
    stitches_meet_seldom,
    unused_design_keys,
)
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.hoop_rules import (
    fields_are_told_once,
    ring_holds_field,
    room_leaves_field,
)
from stitchpath.project.layout_rules import angles_are_taken, unused_keys
from stitchpath.project.motif_rules import (
    drawings_have_width,
    motifs_are_there,
    texts_can_be_sewn,
)
from stitchpath.project.piece_rules import (
    areas_are_left,
    pocket_fits,
    seam_fits,
    threads_differ,
)
from stitchpath.project.size_rules import (
    copies_are_few,
    corners_are_few,
    hoopings_are_few,
)
from stitchpath.project.wording import length_text

STITCH_ROOM_MM: Final = 0.5
"""What the longest stitch must have over two of the shortest: three times the room that
rounding to the grid of files needs (0.15 mm), with a little over."""

Rule: TypeAlias = Callable[[Project], Iterator[Fault]]


def rule_faults(
    project: Project, data: Mapping[str, Any] = MappingProxyType({})
) -> Iterator[Fault]:
    """Yield what is wrong between the keys of a project.

    Names of layouts, formats and bobbins are known ones (`choice_faults` has looked).

    Args:
        project: Each of its values is within its limits.
        data: What was read for it; tells which keys are written.
    """
    for rule in _RULES:
        yield from rule(project)
    yield from fields_are_told_once(project, data)
    yield from unused_keys(project, data)
    yield from unused_design_keys(project, data)


def longest_holds_two(project: Project) -> Iterator[Fault]:
    """The longest stitch is twice the shortest and a little more.

    A line a little longer than the longest stitch is sewn in two, and neither may be too short.
    """
    machine, unit = project.machine, project.units
    most = (machine.longest_stitch - STITCH_ROOM_MM) / 2
    if most < machine.shortest_stitch:
        yield Fault(
            code="stitch-out-of-range",
            path=("machine", "shortest_stitch"),
            message="`machine.shortest_stitch` is too long for `machine.longest_stitch`",
            label=f"must be {length_text(most, unit)} or less",
            notes=(
                "a line a little too long for one stitch is sewn in two",
                f"so the longest must hold two of the shortest and {STITCH_ROOM_MM} mm",
            ),
            help="make the shortest stitch shorter or the longest one longer",
        )


def stitch_lengths_are_allowed(project: Project) -> Iterator[Fault]:
    """Every chosen stitch length lies between the shortest and the longest stitch."""
    machine, unit = project.machine, project.units
    low, high = machine.shortest_stitch, machine.longest_stitch
    if high <= low:
        return  # said already, and nothing lies between them
    for path, stitch_mm in _stitch_lengths(project):
        if not low <= stitch_mm <= high:
            yield Fault(
                code="stitch-out-of-range",
                path=path,
                message=(
                    f"`{key_path(path)}` is {length_text(stitch_mm, unit)},"
                    f" {'above' if high < stitch_mm else 'below'} what the machine may sew"
                ),
                label=f"must be between {length_text(low, unit)} and {length_text(high, unit)}",
                notes=(
                    "these limits are `machine.shortest_stitch` and `machine.longest_stitch`",
                ),
                help="change the stitch length or the machine's limit",
            )


def formats_are_different(project: Project) -> Iterator[Fault]:
    """No format is asked for twice: both files would have one name."""
    names = project.machine.formats
    for number, name in enumerate(names):
        if name in names[:number]:
            yield Fault(
                code="duplicate-format",
                path=("machine", "formats", number),
                message=f"the format `{name}` is asked for twice",
                label=f"the same as item {names.index(name) + 1} of the list",
                help="leave one of them out",
            )


def formats_hold_stitches(project: Project) -> Iterator[Fault]:
    """The longest stitch, its ends rounded to the file's grid, fits every chosen format."""
    machine, unit = project.machine, project.units
    for format_ in stitch_formats(machine.formats):
        name, most_mm = format_.name, format_.longest_step_mm - GRID_MM
        if most_mm < machine.longest_stitch:
            yield Fault(
                code="step-too-long",
                path=("machine", "longest_stitch"),
                message=(
                    "`machine.longest_stitch` is longer than a stitch of the format"
                    f" `{name}` can be"
                ),
                label=f"must be at most {length_text(most_mm, unit)}",
                notes=(
                    f"a `{name}` file holds steps of {format_.longest_step_mm:g} mm",
                    f"rounding to its grid takes up to {GRID_MM:g} mm of that",
                ),
                help=f"make the longest stitch shorter, or leave `{name}` out",
            )


def needle_words_differ(project: Project) -> Iterator[Fault]:
    """Other words put the needle down than up."""
    words = project.machine.gcode
    if words.needle_down == words.needle_up:
        yield Fault(
            code="not-gcode",
            path=("machine", "gcode", "needle_up"),
            message="`machine.gcode.needle_up` says the same as `machine.gcode.needle_down`",
            label=f"must not be `{words.needle_down}`",
            help="the frame's manual says which words lift its needle or pen",
        )


def overlap_is_small(project: Project) -> Iterator[Fault]:
    """Two hoopings overlap by less than half of the smallest field's smaller side."""
    most_mm, unit = min(map(min, project.machine.owned_fields)) / 2, project.units
    if most_mm <= project.hoopings.overlap:
        yield Fault(
            code="overlap-too-large",
            path=("hoopings", "overlap"),
            message="`hoopings.overlap` takes half of the field or more",
            label=f"must be below {length_text(most_mm, unit)}",
            notes=(f"the field's smaller side is {length_text(2 * most_mm, unit)}",),
            help="6 mm to 10 mm are enough to hide a join",
        )


def _stitch_lengths(project: Project) -> Iterator[tuple[Path, float]]:
    for number, quilting in enumerate(project.quilt.quilting):
        yield ("quilt", "quilting", number, "stitch_length"), quilting.stitch_length
    if project.pocket is not None:
        for number, quilting in enumerate(project.pocket.quilting):
            yield ("pocket", "quilting", number, "stitch_length"), quilting.stitch_length
        yield ("pocket", "seam", "stitch_length"), project.pocket.seam.stitch_length


_RULES: Final[tuple[Rule, ...]] = (
    pocket_fits,
    seam_fits,
    areas_are_left,
    threads_differ,
    longest_holds_two,
    angles_are_taken,
    motifs_are_there,
    drawings_have_width,
    texts_can_be_sewn,
    corners_are_few,
    areas_are_sound,
    copies_are_few,
    designs_are_sound,
    copies_of_designs_are_few,
    designs_are_on_their_piece,
    stitches_meet_seldom,
    stitch_lengths_are_allowed,
    formats_are_different,
    formats_hold_stitches,
    ring_holds_field,
    room_leaves_field,
    needle_words_differ,
    overlap_is_small,
    amount_is_finite,
    hoopings_are_few,
)
