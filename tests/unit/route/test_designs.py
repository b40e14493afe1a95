"""When the runs of stitch files are sewn among a hooping's other lines."""

from dataclasses import replace

from stitchpath.model.line import Line, run_of
from stitchpath.model.stitches import Run
from stitchpath.route.costs import Costs
from stitchpath.route.designs import with_designs
from stitchpath.route.order import order_runs
from tests.support.file_lines import file_line
from tests.support.lines import line

MIDDLE = (50.0, 50.0)
ANCHOR = Run(lines=(line([(50, 0), (50, 100)], anchor=True),))
OTHER = Run(lines=(line([(20, 0), (20, 100)]),))


def at(x: float, *, motif: int, run: int = 0, thread: int = 0) -> Line:
    """Return a short line of a copy."""
    points = [(x, 50 + run), (x + 3, 50 + run)]
    made = file_line(points, thread=thread)
    return replace(made, motif=motif, file_run=replace(run_of(made), run=run))


def told(runs: tuple[Run, ...]) -> list[str]:
    names = []
    for run in runs:
        (own,) = run.lines
        if own.file_run is None:
            names.append("anchor" if own.anchor else "line")
        else:
            names.append(f"{own.motif}.{own.file_run.run}" + "'" * own.file_run.thread)
    return names


def test_designs_come_after_anchors_and_before_other_lines() -> None:
    assert told(with_designs((ANCHOR, OTHER), (at(0, motif=0),), MIDDLE)) == [
        "anchor", "0.0", "line",
    ]  # fmt: skip
    assert told(with_designs((OTHER,), (at(0, motif=0),), MIDDLE)) == ["0.0", "line"]
    assert with_designs((OTHER,), (), MIDDLE) == (OTHER,)


def test_copies_come_from_the_middle_outwards_each_in_its_own_order() -> None:
    lines = [at(x, motif=copy, run=run) for copy, x in enumerate((0, 80, 46)) for run in (0, 1)]
    assert told(with_designs((), tuple(lines), MIDDLE)) == [
        "2.0", "2.1", "1.0", "1.1", "0.0", "0.1",
    ]  # fmt: skip


def test_later_threads_come_last_one_after_another_for_all_copies() -> None:
    lines = tuple(
        at(x, motif=copy, run=thread, thread=thread)
        for copy, x in enumerate((46, 0))
        for thread in (0, 1, 2)
    )
    assert told(with_designs((OTHER,), lines, MIDDLE)) == [
        "0.0", "1.0", "line", "0.1'", "1.1'", "0.2''", "1.2''",
    ]  # fmt: skip


def test_route_keeps_the_lines_of_files_as_they_are_and_counts_their_runs() -> None:
    design = at(10, motif=0)
    lines = (design, line([(0, 0), (0, 90)]), line([(9, 0), (9, 90)]))
    route = order_runs(lines, Costs(travel="cut"), middle=MIDDLE)
    alone = order_runs(lines[1:], Costs(travel="cut"), middle=MIDDLE)
    assert [own for run in route.runs for own in run.lines if own.file_run] == [design]
    assert route.figures.runs == alone.figures.runs + 1
    assert route.figures.least_runs == alone.figures.least_runs + 1
    only = order_runs((design,), Costs(travel="cut"), middle=MIDDLE)
    assert [run.lines for run in only.runs] == [(design,)]


def test_parts_of_a_run_stay_in_the_order_they_are_given() -> None:
    first, last = at(10, motif=0), at(30, motif=0)
    again = replace(last, file_run=run_of(first))
    runs = with_designs((), (first, again), MIDDLE)
    assert [run.lines[0] for run in runs] == [first, again]
