"""What a stage's route comes to, as a maker reads it."""

from stitchpath.model.plan import Stage
from stitchpath.model.route import RouteFigures
from stitchpath.preview.words import counted, metres
from stitchpath.units import Unit, format_length, number_of

_METRE_MM = 1000


def explain_route(stage: Stage, unit: Unit) -> list[str]:
    """Return a line on its runs and, where there are any, on lines closed in and open loops."""
    route = stage.route
    is_basted = any(sewn.basting.stitches for sewn in stage.hoopings)
    runs = [
        counted(route.runs, "run") + (" besides basting" if is_basted else ""),
        _fewest(route, hoopings=len(stage.hoopings)),
        *_savings(route, unit),
    ]
    told = ["; ".join(runs), *_closed_in(route.islands), *_kept_open(route.open_cuts)]
    return [f"{stage.name}: {line}" for line in told]


def _fewest(route: RouteFigures, *, hoopings: int) -> str:
    if route.runs < route.least_runs:
        return f"sewn only once, the lines take at least {route.least_runs:,}"
    if route.runs == hoopings:
        return "there cannot be fewer"
    return "the lines cannot be sewn in fewer without sewing some twice"


def _savings(route: RouteFigures, unit: Unit) -> list[str]:
    saved = route.least_runs - route.runs
    if route.retraced_mm:
        twice = (
            metres(route.retraced_mm)
            if route.retraced_mm >= _METRE_MM
            else format_length(round(route.retraced_mm), unit)
        )
        return [f"{twice} is sewn twice to save {counted(saved, 'cut')}"]
    return [f"short hops with the thread uncut save {counted(saved, 'cut')}"] if saved else []


def _closed_in(islands: int) -> list[str]:
    if not islands:
        return []
    lines = number_of(islands, "line is", "lines are")
    return [f"{lines} closed in by lines sewn before: look for pleats there"]


def _kept_open(cuts: int) -> list[str]:
    if not cuts:
        return []
    are = number_of(cuts, "cut is", "cuts are")
    return [f"{are} made to keep loops open; `close_loops = true` under [route] saves as many"]
