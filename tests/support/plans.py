"""A small plan made by hand: a quilt of four hoopings and a pocket seam of one."""

from dataclasses import replace
from itertools import pairwise

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Hooping, Join, Mark
from stitchpath.model.line import Line, LineKind
from stitchpath.model.piece import Piece
from stitchpath.model.plan import Cut, Figures, JoinMiss, Plan, SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.model.route import RouteFigures
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.model.thread import ThreadPair

WIDTH, LENGTH = 360.0, 480.0
FIELD = (200.0, 260.0)
POCKET = (110.0, 340.0, 250.0, 470.0)
JOINS = (
    Join(place=(180.0, 60.0), hoopings=(1, 2), is_on_crossing=True),
    Join(place=(180.0, 240.0), hoopings=(1, 4), is_on_crossing=False),
    Join(place=(180.0, 120.0), hoopings=(1, 2), is_on_crossing=False),
    Join(place=(300.0, 240.0), hoopings=(2, 3), is_on_crossing=False),
)
MISS = JoinMiss(
    by_marks_mm=1.7,
    by_marks_at=JOINS[2],
    typical_mm=1.5,
    chained_mm=9.0,
    chained_at=JOINS[1],
    by_marks_each=(1.3, 1.6, 1.7, 1.4),
    chained_each=(1.3, 9.0, 1.7, 1.4),
)


def rectangle(x0: float, y0: float, x1: float, y1: float) -> Points:
    return np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1], [x0, y0]])


def small_plan(name: str = "Larch Lane picnic rug", *, thread: str = "#2a6f77") -> Plan:
    """Return a plan with crosshatch in four hoopings, one of them turned, and a pocket seam."""
    stages = (quilt_stage(thread), seam_stage(thread))
    return Plan(
        project=Project(quilt=Quilt(width=WIDTH, length=LENGTH), name=name, units="in"),
        stages=stages,
        cutting=(Cut(what="quilt top", width=372.7, length=492.7),),
        findings=(
            Finding(
                code="batting-gap",
                level=Level.WARNING,
                text="a gap of 4 in is wider than the batting allows",
                help="lay lines closer",
                stage="quilt",
                where=(90.0, 120.123456),
                value=101.6,
                limit=100.0,
            ),
            Finding(code="general", level=Level.NOTE, text="mind the cat"),
            Finding(code="cautions", level=Level.NOTE, text="mind your hands"),
        ),
    )


def joined_plan(joins: tuple[Join, ...] = JOINS, miss: JoinMiss | None = MISS) -> Plan:
    """Return the small plan with joins between its quilt's hoopings."""
    whole = small_plan()
    quilt, seam = whole.stages
    return replace(whole, stages=(replace(quilt, joins=joins, miss=miss), seam))


def quilt_stage(thread: str) -> Stage:
    """Return a crosshatch of 60 mm."""
    lines = [_line([(x, 0), (x, LENGTH)], anchor=x == 180) for x in range(60, 360, 60)]
    lines += [_line([(0, y), (WIDTH, y)], anchor=y == 240) for y in range(60, 480, 60)]
    piece = Piece(
        name="quilt",
        width=WIDTH,
        length=LENGTH,
        outline=rectangle(0, 0, WIDTH, LENGTH),
        shadow=rectangle(*POCKET),
    )
    hoopings = tuple(_quarter(number) for number in range(1, 5))
    return _stage("quilt", piece, thread, tuple(lines), hoopings)


def seam_stage(thread: str) -> Stage:
    """Return three sides with a triangle at both ends, and pauses."""
    x0, y0, x1, y1 = POCKET
    left = [(x0, y0), (x0, y0 + 22), (x0, y0), (x0 + 12, y0), (x0, y0), (x0 + 12, y0)]
    left += [(x0, y0 + 22), (x0, y1), (180, y1)]
    right = [(x1 + x0 - x, y) for x, y in left]
    lines = (
        Line(points=np.array(left), kind=LineKind.SEAM, stitch_mm=2.5),
        Line(points=np.array(right), kind=LineKind.SEAM, stitch_mm=2.5),
    )
    hooping = Hooping(
        number=1,
        field=FIELD,
        centre=(180.0, 400.0),
        marks=(
            Mark(name="E", piece=(95.0, 290.0), field=(-85.0, -110.0)),
            Mark(name="F", piece=(265.0, 290.0), field=(85.0, -110.0)),
        ),
    )
    sewn = sewn_hooping(hooping, [[lines[0].points], [lines[1].points]], pull_up=True)
    piece = quilt_stage(thread).piece
    return _stage("seam", piece, thread, lines, (sewn,))


def sewn_hooping(
    hooping: Hooping,
    runs: list[list[Points]],
    *,
    pull_up: bool = False,
    stitch_mm: float = 2.8,
) -> SewnHooping:
    """Return a hooping that sews runs of lines; lines of one run that do not meet are hops."""
    stitches = sewn_runs(runs, pull_up=pull_up, stitch_mm=stitch_mm)
    counts = [int((stitches.op == op).sum()) for op in Op]
    figures = Figures(
        stitches=counts[Op.STITCH],
        runs=len(runs),
        thread_cuts=counts[Op.CUT],
        jumps=counts[Op.JUMP],
        pauses=counts[Op.PAUSE],
        seconds=counts[Op.STITCH] / 10,
        top_thread_mm=1234.56789,
        bobbin_thread_mm=1000.0,
    )
    as_lines = tuple(Run(lines=tuple(_line(points) for points in run)) for run in runs)
    route = RouteFigures(runs=len(runs), least_runs=len(runs) + 1, retraced_mm=12.34567)
    return SewnHooping(
        hooping=hooping, runs=as_lines, route=route, stitches=stitches, figures=figures
    )


def sewn_runs(runs: list[list[Points]], *, pull_up: bool, stitch_mm: float) -> Stitches:
    """Return jump, stitches, cut for each run."""
    rows: list[tuple[float, float, int]] = []
    for run in runs:
        for at, line in enumerate(run):
            points = needle_points(line, stitch_mm)
            rows.append((*points[0].tolist(), Op.JUMP))
            rows += [(x, y, Op.STITCH) for x, y in points[:1].tolist()]
            if pull_up and at == 0:
                rows.append((*points[0].tolist(), Op.PAUSE))
            rows += [(x, y, Op.STITCH) for x, y in points[1:].tolist()]
        rows.append((rows[-1][0], rows[-1][1], Op.CUT))
    table = np.array(rows)
    return Stitches(
        xy=table[:, :2], op=table[:, 2].astype(np.uint8), tie=np.zeros(len(table), np.bool_)
    )


def needle_points(line: Points, stitch_mm: float) -> Points:
    """Return a polyline's vertices with equal stitches between them."""
    parts = [np.array([line[0]], dtype=np.float64)]
    for a, b in pairwise(line):
        count = max(1, int(np.ceil(np.hypot(*(np.subtract(b, a))) / stitch_mm - 1e-9)))
        share = np.arange(1, count + 1)[:, None] / count
        parts.append(a + share * np.subtract(b, a))
    return np.concatenate(parts)


def _quarter(number: int) -> SewnHooping:
    column, row = (number - 1) % 2, (number - 1) // 2
    x0, y0 = column * 180.0, row * 240.0
    turn = 180.0 if number == 4 else 0.0
    centre = (x0 + 90, y0 + 120)
    at_top = (0.0, 100.0 if turn else -100.0)
    mark = Mark(name="ABCD"[number - 1], piece=(x0 + 90, y0 + 20), field=at_top)
    hooping = Hooping(number=number, field=FIELD, centre=centre, turn_deg=turn, marks=(mark,))
    reach = (
        (x0 - 3 * column, x0 + 180 + 3 * (1 - column)),
        (
            y0 - 3 * row,
            y0 + 240 + 3 * (1 - row),
        ),
    )
    upright = [np.array([(x, reach[1][0]), (x, reach[1][1])]) for x in (x0 + 60, x0 + 120)]
    level = [
        np.array([(reach[0][0], y), (reach[0][1], y)]) for y in (y0 + 60, y0 + 120, y0 + 180)
    ]
    runs = [[upright[0]], [upright[1][::-1]], [level[0]], [level[1][::-1], level[2]]]
    return sewn_hooping(hooping, runs)


def _line(points: Points | list[tuple[float, float]], *, anchor: bool = False) -> Line:
    return Line(
        points=np.asarray(points, dtype=np.float64),
        kind=LineKind.QUILTING,
        stitch_mm=2.8,
        anchor=anchor,
    )


def _stage(
    name: str,
    piece: Piece,
    thread: str,
    lines: tuple[Line, ...],
    hoopings: tuple[SewnHooping, ...],
) -> Stage:
    return Stage(
        name=name,  # type: ignore[arg-type]
        piece=piece,
        thread=ThreadPair(top=thread, bobbin="#faf0e6"),
        thickness_mm=3.0,
        lines=lines,
        hoopings=hoopings,
        figures=sum((one.figures for one in hoopings), Figures()),
        bobbins=1,
    )
