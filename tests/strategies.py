"""Random geometry and random projects; the only place in the tests that makes them.

Sizes are those of small pieces, so that a plan takes milliseconds; what is odd about a large
one (many hoopings, long lines, off-grid numbers) is odd about these too.
"""

import numpy as np
from hypothesis import strategies as st
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import ROUNDING_MM
from stitchpath.hoopings.places import Cover, Kind, Place
from stitchpath.model.estimate import Rectangle
from stitchpath.model.line import Line, LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.project import HoopingRules, Project, RouteRules
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt, Quilting
from stitchpath.model.shape import Shape
from tests.support.designs import Step


def lengths(low: float, high: float) -> st.SearchStrategy[float]:
    """Return lengths, round and odd ones: multiples of 0.1, of 1/16 in, and anything."""
    return st.one_of(
        st.integers(int(np.ceil(low * 10)), int(high * 10)).map(lambda tenths: tenths / 10),
        st.integers(int(np.ceil(low / 25.4 * 16)), int(high / 25.4 * 16)).map(
            lambda sixteenths: sixteenths * 25.4 / 16
        )
        if high - low > 2
        else st.floats(low, high, allow_subnormal=False),
        st.floats(low, high, allow_subnormal=False),
    )


def angles() -> st.SearchStrategy[float]:
    """Return angles in degrees, those that makers choose among them."""
    common = st.sampled_from([0.0, 45.0, 90.0, -45.0, 30.0, 60.0, 180.0, 135.0])
    return st.one_of(common, st.floats(-180, 180, allow_subnormal=False))


@st.composite
def quiltings(draw: st.DrawFn, *, side_mm: float, low: float, high: float) -> Quilting:
    """Return a layout for a piece whose shorter side is given, stitches between two limits."""
    layout = draw(st.sampled_from(["crosshatch", "parallel", "diagonal"]))
    right = st.sampled_from([0.0, 90.0])
    return Quilting(
        layout=layout,
        spacing=draw(lengths(max(8.0, side_mm / 25), 1.5 * side_mm)),
        start=draw(st.sampled_from(["centre", "edge"])),
        angle=draw(right if layout == "diagonal" else angles()),
        margin=draw(st.just(0.0) | lengths(0, side_mm / 3)),
        stitch_length=draw(lengths(low, high)),
    )


@st.composite
def machines(draw: st.DrawFn) -> Machine:
    """Return machines with fields down to 60 mm and stitch limits that can be kept."""
    side = lengths(60, 200)
    shortest = draw(st.just(1.0) | lengths(0.5, 2.0))
    return Machine(
        field=(draw(side), draw(side)),
        shortest_stitch=shortest,
        longest_stitch=draw(st.just(7.0) | lengths(2 * shortest + 0.5, 9.0)),
        cuts_thread=draw(st.booleans()),
        bobbin_pull_up=draw(st.sampled_from(["never", "seam", "always"])),
    )


@st.composite
def projects(draw: st.DrawFn) -> Project:
    """Return projects that a project file could hold, with a pocket or without one."""
    machine = draw(machines())
    width, length = draw(lengths(40, 400)), draw(lengths(40, 400))
    low, high = machine.shortest_stitch, min(machine.longest_stitch, 5.0)
    layouts = quiltings(side_mm=min(width, length), low=low, high=high)
    return Project(
        quilt=Quilt(
            width=width,
            length=length,
            edge=draw(st.sampled_from(["turned", "bound"])),
            edge_stitch=draw(st.just(0.0) | lengths(1, 10)),
            quilting=tuple(draw(st.lists(layouts, max_size=2))),
        ),
        pocket=draw(st.none() | pockets(quilt=(width, length), low=low, high=high)),
        machine=machine,
        hoopings=HoopingRules(
            overlap=draw(lengths(0, 20)),
            turn=draw(st.booleans()),
            order=draw(st.sampled_from(["middle", "rows"])),
        ),
        route=RouteRules(
            travel=draw(st.sampled_from(["edge", "cut", "retrace"])),
            cut_seconds=draw(st.sampled_from([5.0, 60.0])),
            parallel=draw(st.sampled_from(["alternate", "same"])),
        ),
    )


@st.composite
def pockets(draw: st.DrawFn, *, quilt: tuple[float, float], low: float, high: float) -> Pocket:
    """Return pockets that lie within a quilt, their triangles within them."""
    width, length = draw(lengths(36, quilt[0])), draw(lengths(30, quilt[1] - 5))
    inset = draw(lengths(0.5, 5))
    layouts = quiltings(side_mm=min(width, length), low=low, high=high)
    return Pocket(
        width=width,
        length=length,
        raise_=draw(lengths(0, 5)),
        mouth_stitch=draw(st.just(0.0) | lengths(1, 10)),
        quilting=tuple(draw(st.lists(layouts, max_size=1))),
        seam=PocketSeam(
            inset=inset,
            corner_side=draw(lengths(3, min(40, 0.8 * (length - 2 * inset)))),
            corner_across=draw(lengths(3, min(40, 0.45 * (width - 2 * inset)))),
            passes=draw(st.integers(1, 5)),
            sew=draw(st.sampled_from(["sides", "corners"])),
            stitch_length=draw(lengths(low, high)),
        ),
    )


def points(reach_mm: float = 200.0) -> st.SearchStrategy[tuple[float, float]]:
    """Return places around the origin, many of them on a grid so that lines meet and touch.

    The others are whole nanometres: nobody designs finer, and smaller numbers only show where
    shapely's own sums end.
    """
    axis = st.one_of(
        st.integers(-int(reach_mm / 10), int(reach_mm / 10)).map(lambda tens: 10.0 * tens),
        st.floats(-reach_mm, reach_mm, allow_subnormal=False).map(lambda x: round(x, 6)),
    )
    return st.tuples(axis, axis)


def polylines(
    *, most: int = 6, shortest_mm: float = 0.5, reach_mm: float = 200.0
) -> st.SearchStrategy[Points]:
    """Return polylines without neighbours closer than `shortest_mm`; they may cross."""
    drawn = st.lists(points(reach_mm), min_size=2, max_size=most).map(np.array)
    return drawn.filter(
        lambda line: bool((np.hypot(*np.diff(line, axis=0).T) >= shortest_mm).all())
    )


def windings(*, most: int = 40) -> st.SearchStrategy[Points]:
    """Return lines of short, equal segments that turn by little at a vertex, as curves do."""
    turns = st.lists(st.floats(-0.5, 0.5), min_size=2, max_size=most).map(np.cumsum)
    return st.builds(
        lambda side_mm, heading: np.cumsum(
            side_mm * np.column_stack([np.cos(heading), np.sin(heading)]), axis=0
        ),
        lengths(0.1, 5.0),
        turns,
    )


def straight_lines(
    *, most: int = 8, reach_mm: float = 200.0
) -> st.SearchStrategy[list[Points]]:
    """Return sets of straight lines that cross, touch, coincide or lie loose, none to many."""
    one = polylines(most=2, reach_mm=reach_mm)
    return st.lists(one, max_size=most)


@st.composite
def covers(draw: st.DrawFn, *, overlap_mm: float) -> Cover:
    """Return fields in rows round the origin that overlap by more than the overlap."""
    pitch = draw(lengths(20, 150)), draw(lengths(20, 150))
    rest = max(overlap_mm, 2.0) + draw(lengths(0, 10))
    columns, rows = draw(st.integers(1, 6)), draw(st.integers(1, 6))
    field = (pitch[0] + rest + ROUNDING_MM, pitch[1] + rest + ROUNDING_MM)
    kind = Kind(field=field, turn_deg=0.0, ring=field)
    return tuple(
        Place(
            kind=kind,
            centre=((column - (columns - 1) / 2) * pitch[0], (row - (rows - 1) / 2) * pitch[1]),
        )
        for row in range(rows)
        for column in range(columns)
    )


@st.composite
def lines(draw: st.DrawFn, *, reach_mm: float = 200.0) -> Line:
    """Return one line of any kind."""
    kind = draw(st.sampled_from(LineKind))
    return Line(
        points=draw(polylines(reach_mm=reach_mm)),
        kind=kind,
        stitch_mm=draw(st.sampled_from([1.5, 2.5, 2.8])),
        anchor=kind is LineKind.QUILTING and draw(st.booleans()),
    )


@st.composite
def shapes(draw: st.DrawFn, side_mm: float) -> Shape:
    """Return borders, rectangles and star-shaped polygons on a piece of about that side."""
    kind = draw(st.sampled_from(["border", "rectangle", "polygon"]))
    if kind == "border":
        return Shape(border=draw(st.floats(5, side_mm / 2.5)))
    if kind == "rectangle":
        left, top = (draw(st.floats(-20, side_mm * 0.8)) for _ in range(2))
        width, height = (draw(st.floats(5, side_mm)) for _ in range(2))
        return Shape(rectangle=(left, top, width, height))
    count = draw(st.integers(3, 9))
    radii = draw(st.lists(st.floats(0.1, 0.6), min_size=count, max_size=count))
    turns = 2 * np.pi * np.arange(count) / count
    middle = side_mm / 2
    return Shape(
        polygon=tuple(
            (
                float(middle + radius * side_mm * np.cos(turn)),
                float(middle + radius * side_mm * np.sin(turn)),
            )
            for radius, turn in zip(radii, turns.tolist(), strict=True)
        )
    )


def line_set(chance: np.random.Generator) -> tuple[Line, ...]:
    """Return quilting lines that cross, share ends, end on one another, close, or coincide.

    For checks on many sets, which would take hypothesis too long; one to eleven lines.
    """
    step = (0.0, 10.0, 7.3)[chance.integers(3)]  # any place, or places on a grid
    made: list[Points] = []
    for _ in range(chance.integers(1, 12)):
        kind = chance.integers(6)
        start, end = _place(chance, step), _place(chance, step)
        if kind == 0:
            angle = np.linspace(0, 2 * np.pi, 25)
            ring = start + chance.uniform(3, 20) * np.column_stack(
                [np.cos(angle), np.sin(angle)]
            )
            made.append(np.concatenate([ring[:-1], ring[:1]]))
        elif kind == 1:
            (x0, y0), (x1, y1) = start, end
            made.append(np.array([start, (x1, y0), end, (x0, y1), start]))
        elif kind == 2 and made:  # from somewhere on another line
            other = made[chance.integers(len(made))]
            segment = chance.integers(len(other) - 1)
            share = chance.choice([0.0, 0.5, chance.random()])
            foot = other[segment] + share * (other[segment + 1] - other[segment])
            made.append(np.array([foot, end]))
        else:
            rest = [_place(chance, step) for _ in range(chance.integers(0, 3))]
            made.append(np.array([start, end, *rest]))
    long = [line for line in made if (np.hypot(*np.diff(line, axis=0).T) > 0.5).all()]
    return tuple(
        Line(points=points, kind=LineKind.QUILTING, stitch_mm=2.5)
        for points in long or [np.array([(0.0, 0.0), (9.0, 0.0)])]
    )


def _place(chance: np.random.Generator, step: float) -> Points:
    if step and chance.random() < 0.8:
        return np.asarray(chance.integers(0, 7, 2) * step)
    return chance.uniform(0, 60, 2)


def planar_graph(chance: np.random.Generator, *, most: int) -> tuple[Line, ...]:
    """Return straight lines between neighbouring places of a blurred grid, which do not cross.

    Args:
        chance: A seeded generator.
        most: Of columns and of rows.
    """
    columns, rows = chance.integers(2, most + 1, 2)
    blur = chance.uniform(-3, 3, (columns, rows, 2))
    place = 10.0 * np.stack(np.meshgrid(range(columns), range(rows), indexing="ij"), axis=2)
    place += blur
    pairs = [((x, y), (x + 1, y)) for x in range(columns - 1) for y in range(rows)]
    pairs += [((x, y), (x, y + 1)) for x in range(columns) for y in range(rows - 1)]
    share = chance.uniform(0.4, 1.0)
    kept = [pair for pair in pairs if chance.random() < share] or pairs[:1]
    return tuple(
        Line(points=np.array([place[one], place[other]]), kind=LineKind.QUILTING, stitch_mm=2.5)
        for one, other in kept
    )


@st.composite
def cloth_pieces(
    draw: st.DrawFn, width: float, *, most: int, turning: st.SearchStrategy[bool] | None = None
) -> list[Rectangle]:
    """Return rectangles that cloth of a width holds as they stand, some of them alike."""
    count = draw(st.integers(1, most))
    kinds = draw(st.integers(1, count))
    sizes = [(draw(lengths(20, width)), draw(lengths(20, 1.5 * width))) for _ in range(kinds)]
    may_turn = draw(turning if turning is not None else st.booleans())
    return [
        Rectangle(
            what=f"piece {number % kinds}",
            width=sizes[number % kinds][0],
            length=sizes[number % kinds][1],
            may_turn=may_turn,
        )
        for number in range(count)
    ]


@st.composite
def design_steps(draw: st.DrawFn, *, tied: bool = False, most_runs: int = 4) -> list[Step]:
    """Return what a stitch file sews: runs of stitches of up to 6 mm, with moves and stops.

    Args:
        draw: Hypothesis's.
        tied: Each run begins and ends with short stitches of its own.
        most_runs: Runs at the most.
    """
    step = st.integers(-42, 42)
    places: list[Step] = []
    x, y = draw(st.tuples(st.integers(-300, 300), st.integers(-300, 300)))
    for number in range(draw(st.integers(1, most_runs))):
        if number:
            places.append(draw(st.sampled_from(["cut", "colour"])))
            x, y = x + draw(step), y + draw(step)
        ties = [(7, 0), (-7, 0)] if tied else []
        middle = draw(st.lists(st.tuples(step, step), min_size=2, max_size=30))
        places.append((x, y))
        for dx, dy in [*ties, *middle, *ties]:
            if draw(st.integers(0, 15)) == 0:
                places.append(draw(st.sampled_from(["jump", "stop"])))
            x, y = x + dx, y + dy
            places.append((x, y))
    return places


@st.composite
def walk_ends(draw: st.DrawFn) -> NDArray[np.float64]:
    """Return where walks begin and end, shape (n, 2, 2), mm; n >= 1.

    Scattered ones, those of a lattice, which are often as near as each other or in one place,
    those along a line, and heaps far apart.
    """
    chance = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    shape = (draw(st.integers(1, 60)), 2, 2)
    kind = draw(st.sampled_from(["scattered", "lattice", "line", "heaps"]))
    if kind == "lattice":
        return (10 * chance.integers(0, 9, shape)).astype(np.float64)
    ends = chance.uniform(0, 100, shape)
    if kind == "line":
        ends[..., 1] = 0
    elif kind == "heaps":
        ends += 5000.0 * chance.integers(0, 2, (shape[0], 1, 1))
    return ends
