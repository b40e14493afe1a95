"""The plan: everything that was decided. Files, pictures and reports only read it."""

from dataclasses import dataclass, field
from typing import Final

import shapely

from stitchpath.model.design import SewnDesign
from stitchpath.model.estimate import Estimate
from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Hooping, Join
from stitchpath.model.line import Line
from stitchpath.model.piece import Piece, StageName
from stitchpath.model.project import Project
from stitchpath.model.refit import Refit
from stitchpath.model.route import RouteFigures
from stitchpath.model.stitches import Run, Stitches
from stitchpath.model.thread import ThreadPair


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What one hooping, one stage or a whole plan comes to.

    Attributes:
        stitches: Needle points.
        runs: Stretches sewn without cutting the thread.
        thread_cuts: Cuts between runs, by the machine.
        snips: Threads between runs that are left for the maker to snip.
        jumps: Moves without sewing, however many records a format needs for one.
        pauses: Stops for the maker.
        seconds: Of sewing, cutting and pausing; without hooping.
        top_thread_mm: Of the thread on top.
        bobbin_thread_mm: Of the thread in the bobbin.
    """

    stitches: int = 0
    runs: int = 0
    thread_cuts: int = 0
    snips: int = 0
    jumps: int = 0
    pauses: int = 0
    seconds: float = 0.0
    top_thread_mm: float = 0.0
    bobbin_thread_mm: float = 0.0

    def __add__(self, other: "Figures") -> "Figures":
        """Add figure by figure."""
        return Figures(**{name: getattr(self, name) + getattr(other, name) for name in _NAMES})


_NAMES = tuple(Figures.__dataclass_fields__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Basting:
    """What a hooping bastes before all else, to be taken out when the quilt is done.

    Attributes:
        marks: Names of the placement marks that are sewn here, each as a cross.
        box: Whether a box is basted round what the hooping sews.
        stitches: Needle points that this takes; a pause follows them.
    """

    marks: tuple[str, ...] = ()
    box: bool = False
    stitches: int = 0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SewnHooping:
    """A hooping with everything that is sewn in it.

    Attributes:
        hooping: Where the hoop lies.
        runs: What is sewn, in order; basting is not in them.
        route: How the runs were found, in figures.
        stitches: Needle points and commands, in the piece's frame; those of basting first.
        figures: What it comes to, with its basting.
        basting: What is basted before all else.
        refit: How it really lay when it was sewn, if that was found out.
    """

    hooping: Hooping
    runs: tuple[Run, ...]
    route: RouteFigures
    stitches: Stitches
    figures: Figures
    basting: Basting = Basting()
    refit: Refit | None = None

    @property
    def threads(self) -> tuple[int, ...]:
        """The threads in the order they are needed: 0 is the stage's, see `Line.file_run`."""
        needed = [
            0 if line.file_run is None else line.file_run.thread
            for run in self.runs
            for line in run.lines
        ]
        return tuple(dict.fromkeys(needed))


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceMark:
    """A placement mark as it lies on a piece.

    Attributes:
        name: One or two letters; one name is one place.
        place: On the piece, x and y in mm.
        hoopings: Numbers of the hoopings that are lined up with it.
    """

    name: str
    place: tuple[float, float]
    hoopings: tuple[int, ...]


VISIBLE_MM: Final = 2.0
"""A miss at a join from which on it is plainly visible. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinMiss:
    """How far hoopings of a stage can be expected to miss each other: 95 of 100 miss by less.

    Attributes:
        by_marks_mm: At the worst join, where every hoop is lined up with marks on the piece.
        by_marks_at: That join.
        typical_mm: The same at the middle one of all joins.
        chained_mm: At the worst join, where every hoop is lined up with the one before.
        chained_at: That join.
        by_marks_each: By marks, at each of the stage's joins in their order, mm.
        chained_each: Lined up with the one before, at each of them, mm.
    """

    by_marks_mm: float
    by_marks_at: Join
    typical_mm: float
    chained_mm: float
    chained_at: Join
    by_marks_each: tuple[float, ...] = ()
    chained_each: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidLayout:
    """What one layout came to on its area.

    Attributes:
        name: The layout.
        lines: Separate lines.
        length_mm: Their length together.
        widest_gap_mm: Diameter of the largest circle in its area that no line of it reaches.
        spacing_mm: The spacing it was asked for; 0 where it has none.
        text: What it writes; empty where it does not write.
        height_mm: Of a text's capitals.
    """

    name: str
    lines: int
    length_mm: float
    widest_gap_mm: float
    spacing_mm: float = 0.0
    text: str = ""
    height_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stage:
    """Sewing done on one piece with one pair of threads.

    Attributes:
        name: `pocket`, `quilt` or `seam`.
        piece: What lies under the needle.
        thread: The pair of threads.
        thickness_mm: Of what the needle goes through.
        layouts: What each layout came to.
        lines: The designed lines, before any hooping is known.
        hoopings: What is sewn, in order.
        figures: The sum over the hoopings.
        bobbins: Full bobbins needed.
        bound: No way of placing the hoops takes fewer hoopings; 0 where there are none.
        joins: Where hoopings meet on lines.
        miss: How far they can be expected to miss each other there; None without joins.
        barriers: Where no thread may lie across, or None.
        designs: What each of its designs came to.
    """

    name: StageName
    piece: Piece
    thread: ThreadPair
    thickness_mm: float
    layouts: tuple[LaidLayout, ...] = ()
    lines: tuple[Line, ...]
    hoopings: tuple[SewnHooping, ...]
    figures: Figures
    bobbins: int
    bound: int = 0
    joins: tuple[Join, ...] = ()
    miss: JoinMiss | None = None
    barriers: shapely.Geometry | None = None
    designs: tuple[SewnDesign, ...] = ()

    @property
    def later_threads(self) -> tuple[tuple[str, str], ...]:
        """File and colour of the threads numbered from 1, those that designs change to."""
        return tuple(
            (design.source, colour) for design in self.designs for colour in design.colours[1:]
        )

    @property
    def route(self) -> RouteFigures:
        """The sum of the hoopings' routes."""
        return sum((sewn.route for sewn in self.hoopings), RouteFigures())

    @property
    def marks(self) -> tuple[PieceMark, ...]:
        """The placement marks of all hoopings, each once, A to Z before AA."""
        places: dict[str, tuple[float, float]] = {}
        used: dict[str, list[int]] = {}
        for sewn in self.hoopings:
            for mark in sewn.hooping.marks:
                places.setdefault(mark.name, mark.piece)
                used.setdefault(mark.name, []).append(sewn.hooping.number)
        names = sorted(places, key=lambda name: (len(name), name))
        return tuple(
            PieceMark(name=name, place=places[name], hoopings=tuple(used[name]))
            for name in names
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Something to cut: what, how wide, how long (mm), how many."""

    what: str
    width: float
    length: float
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldAlone:
    """What a plan would come to if one of the maker's fields were the only one.

    Attributes:
        field: Width and height, mm.
        hoopings: Of all stages; 0 where the field does not hold what must stay whole.
        seconds: Of sewing, cutting and pausing.
        handling: Seconds of hooping, placing and changing threads on top of that.
    """

    field: tuple[float, float]
    hoopings: int = 0
    seconds: float = 0.0
    handling: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plan:
    """Everything that was decided.

    Attributes:
        project: What it was decided from.
        stages: In the order of sewing; a stage with nothing to sew is left out.
        cutting: What to cut.
        findings: What the checks said, worst first.
        fields_alone: Of several fields, what each would need by itself, where that was asked.
        estimate: What it comes to beyond its stitch files.
    """

    project: Project
    stages: tuple[Stage, ...]
    cutting: tuple[Cut, ...]
    findings: tuple[Finding, ...]
    fields_alone: tuple[FieldAlone, ...] = ()
    estimate: Estimate = field(default_factory=Estimate)

    @property
    def figures(self) -> Figures:
        """The sum over the stages."""
        return sum((stage.figures for stage in self.stages), Figures())

    @property
    def has_errors(self) -> bool:
        """Whether something cannot be sewn as planned."""
        return any(finding.level is Level.ERROR for finding in self.findings)
