"""The templates as a PDF reader sees them: true to 0.1 mm, on sheets of the right size."""

import io
import re
from dataclasses import dataclass, replace
from itertools import pairwise
from math import dist

import numpy as np
import pdfplumber
import pytest

from stitchpath.model.hooping import Mark
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.model.project import Project, Sheets
from stitchpath.model.quilt import Quilt
from stitchpath.pipeline import plan
from stitchpath.preview.templates import draw_templates
from tests.support.plans import small_plan

TRUE_MM = 0.1
WRITTEN_MM = 0.001 * 25.4 / 72  # places are written to a thousandth of a point
MM = 25.4 / 72
"""72 points to the inch: ISO 32000, default user space."""
SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""ISO 216; 8 1/2 x 11 in. See docs/sources.md."""
THIN, EDGE, THICK = 0.3 / MM, 0.4 / MM, 0.5 / MM
"""Widths of lines of the design, of edges and of signs, in points."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """What stands on one page, mm from its top left corner."""

    size: tuple[float, float]
    words: str
    segments: list[tuple[float, np.ndarray]]

    def of_length(self, length: float, width: float) -> list[np.ndarray]:
        """Return straight lines of a length (mm) and a width (points)."""
        return [
            ends
            for thick, ends in self.segments
            if abs(thick - width) < 0.01 and abs(dist(*ends.tolist()) - length) < TRUE_MM
        ]

    def crosses(self, arm: float, width: float) -> list[tuple[float, float]]:
        """Return the middles of crosses, each made of two lines of twice the arm."""
        middles = [ends.mean(axis=0) for ends in self.of_length(2 * arm, width)]
        near = [
            (one, other)
            for number, one in enumerate(middles)
            for other in middles[number + 1 :]
            if dist(one, other) < TRUE_MM / 10
        ]
        return [(float(one[0]), float(one[1])) for one, _ in near]


def sheets_of(made: Plan) -> list[Sheet]:
    with pdfplumber.open(io.BytesIO(draw_templates(made))) as pdf:
        return [_sheet(page) for page in pdf.pages]


def _sheet(page: pdfplumber.page.Page) -> Sheet:
    segments = []
    for drawn in [*page.lines, *page.curves, *page.rects]:
        points = np.array(drawn["pts"]) * MM
        segments += [(drawn["linewidth"], np.array(pair)) for pair in pairwise(points)]
    size = (float(page.width) * MM, float(page.height) * MM)
    return Sheet(size, page.extract_text(), segments)


def on_paper(paper: str) -> Plan:
    project = replace(small_plan().project, sheets=Sheets(paper=paper))  # type: ignore[arg-type]
    return replace(small_plan(), project=project)


@pytest.fixture(scope="module")
def sheets() -> list[Sheet]:
    return sheets_of(small_plan())


def of_hooping(sheets: list[Sheet], stage: Stage, sewn: SewnHooping) -> list[Sheet]:
    head = f"stage {stage.name}, hooping {sewn.hooping.number}, sheet"
    return [sheet for sheet in sheets if head in sheet.words]


@pytest.mark.parametrize("paper", SIZES)
def test_sheets_have_the_size_of_their_paper(paper: str) -> None:
    for sheet in sheets_of(on_paper(paper)):
        assert sorted(sheet.size) == pytest.approx(sorted(SIZES[paper]), abs=0.01)


@pytest.mark.parametrize("paper", SIZES)
def test_nothing_is_drawn_where_printers_do_not_reach(paper: str) -> None:
    for sheet in sheets_of(on_paper(paper)):
        points = np.concatenate([ends for _, ends in sheet.segments])
        assert points.min() >= 10 - WRITTEN_MM
        assert np.all(points <= np.array(sheet.size) - 10 + WRITTEN_MM)


def test_every_sheet_has_a_line_of_100_mm_and_a_mark_at_4_in(sheets: list[Sheet]) -> None:
    for sheet in sheets:
        lines = [ends for ends in sheet.of_length(100, THIN) if np.ptp(ends[:, 1]) < 0.01]
        foot = max(lines, key=lambda ends: ends[0, 1])
        assert dist(*foot.tolist()) == pytest.approx(100, abs=TRUE_MM)
        short = [
            ends for ends in sheet.of_length(2, THIN) if abs(ends.mean(0) - foot[0])[1] < 1
        ]
        ticks = [float(ends[0, 0] - foot[:, 0].min()) for ends in short]
        assert ticks == pytest.approx([101.6], abs=TRUE_MM)


def test_overview_has_a_square_of_100_mm_and_every_mark(sheets: list[Sheet]) -> None:
    made = small_plan()
    overviews = [sheet for sheet in sheets if "all hoopings" in sheet.words]
    assert len(overviews) == len(made.stages)
    for stage, sheet in zip(made.stages, overviews, strict=True):
        sides = [ends for ends in sheet.of_length(100, THIN) if ends[0, 1] < 250]
        assert len(sides) >= 3  # the reader leaves off the side that closes a rectangle
        assert np.ptp(np.concatenate(sides), axis=0) == pytest.approx([100, 100], abs=TRUE_MM)
        for mark in stage.marks:
            assert re.search(rf"(?m)^{mark.name} .* in ", sheet.words)


def test_edges_are_drawn_apart_from_other_lines_and_named_where_they_are_seen(
    sheets: list[Sheet],
) -> None:
    seen = 0
    for sheet in sheets:
        if ", sheet " not in sheet.words:  # the overview
            continue
        edges = [ends for width, ends in sheet.segments if abs(width - EDGE) < 0.01]
        assert bool(edges) == ("edge of the" in sheet.words)
        seen += "edge of the quilt" in sheet.words and "edge of the pocket" in sheet.words
    assert seen


def test_a_long_table_of_marks_goes_on_over_more_sheets() -> None:
    """150 marks: 30 fit below the overview, then about 57 a sheet."""
    made = small_plan()
    quilt = made.stages[0]
    first = quilt.hoopings[0]
    marks = tuple(
        Mark(name=f"M{number}", piece=(float(number), 9.0), field=(0.0, 0.0))
        for number in range(150)
    )
    hooping = replace(first.hooping, marks=marks)
    stage = replace(quilt, hoopings=(replace(first, hooping=hooping),))
    pages = sheets_of(replace(made, stages=(stage,)))
    tables = [sheet for sheet in pages if "from the middle" in sheet.words]
    assert len(tables) == 4
    listed = [
        name for sheet in tables for name in re.findall(r"(?m)^(M\d+) (?=[-\d])", sheet.words)
    ]
    assert listed == [f"M{number}" for number in range(150)]


def test_marks_are_as_far_apart_on_paper_as_in_the_field(sheets: list[Sheet]) -> None:
    """The seam's marks lie on one sheet, 170 mm apart."""
    seam = small_plan().stages[1]
    pairs = [
        sheet.crosses(6, THICK)
        for sheet in of_hooping(sheets, seam, seam.hoopings[0])
        if sheet.crosses(6, THICK)
    ]
    assert len(pairs) == 1
    first, second = pairs[0]
    assert dist(first, second) == pytest.approx(170, abs=TRUE_MM)


@pytest.mark.parametrize("paper", SIZES)
def test_sheets_laid_cross_on_cross_show_the_whole_hooping_at_true_scale(paper: str) -> None:
    """As a maker does: lay the crosses of an overlap on each other, then measure.

    A field of 300 x 420 mm takes several sheets. Laid together, the marks' crosses are where
    they are in the field, and so are the ends of every line.
    """
    quilt = Quilt(width=290, length=400)
    project = Project(quilt=quilt, sheets=Sheets(paper=paper))  # type: ignore[arg-type]
    machine = replace(project.machine, field=(300.0, 420.0))
    made = plan(replace(project, machine=machine))
    (stage,) = made.stages
    (sewn,) = stage.hoopings
    laid = _laid(of_hooping(sheets_of(made), stage, sewn))
    found = [cross for shift, sheet in laid for cross in _moved(sheet.crosses(6, THICK), shift)]
    marks = np.array([mark.field for mark in sewn.hooping.marks])
    origin = min(found, key=lambda at: at[0] + at[1]) - marks[np.argmin(marks.sum(axis=1))]
    for mark in marks:
        assert min(dist(mark + origin, at) for at in found) <= TRUE_MM
    drawn = np.concatenate(
        [
            np.asarray(ends + shift)
            for shift, sheet in laid
            for width, ends in sheet.segments
            if abs(width - THIN) < 0.01
        ]
    )
    for run in sewn.runs:
        for line in run.lines:
            for end in sewn.hooping.to_field(line.points[[0, -1]]) + origin:
                assert np.hypot(*(drawn - end).T).min() <= TRUE_MM


def _moved(places: list[tuple[float, float]], shift: np.ndarray) -> list[np.ndarray]:
    return [np.array(place) + shift for place in places]


def _laid(sheets: list[Sheet]) -> list[tuple[np.ndarray, Sheet]]:
    """Return each sheet's shift when all lie together, by the crosses in their overlaps."""
    places = {}
    for sheet in sheets:
        match = re.search(r"row (\d+), column (\d+)\)", sheet.words)
        assert match is not None
        places[int(match[1]), int(match[2])] = sheet
    shifts = {(1, 1): np.zeros(2)}
    for row, column in sorted(places):
        before = (row, column - 1) if column > 1 else (row - 1, column)
        if (row, column) == (1, 1):
            continue
        axis = 0 if column > 1 else 1
        here, there = (
            sorted(_seam(places[at], axis, last=last), key=lambda place: place[1 - axis])
            for at, last in (((row, column), False), (before, True))
        )
        moves = [np.subtract(b, a) for a, b in zip(here, there, strict=True)]
        assert dist(*moves) <= TRUE_MM, "both crosses of an overlap lie on each other"
        shifts[row, column] = shifts[before] + moves[0]
    return [(shifts[at], sheet) for at, sheet in places.items()]


def _seam(sheet: Sheet, axis: int, *, last: bool) -> list[tuple[float, float]]:
    """Return the two crosses of a sheet's overlap at its first or last side along an axis."""
    crosses = sheet.crosses(3, THIN)
    edge = (max if last else min)(place[axis] for place in crosses)
    return [place for place in crosses if abs(place[axis] - edge) < TRUE_MM]


def test_any_name_is_printed_or_stands_as_marks() -> None:
    made = replace(
        small_plan(), project=replace(small_plan().project, name='🧵 "שלום" (\\) Łódź')
    )
    assert all('"' in sheet.words for sheet in sheets_of(made))
