"""The stitch player: its controls as HTML, and what it plays as data."""

from typing import Any

from stitchpath.geometry.points import Points, in_steps
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview.booklet.bobbins import Starts, bobbin_starts
from stitchpath.preview.booklet.front import section
from stitchpath.preview.booklet.markup import Markup, joined, tag
from stitchpath.preview.booklet.points import encoded_points
from stitchpath.preview.colours import CLOTH, HOOP, INK, NIGHT, UNTOLD, lay_colour

_SPEEDS = (("1", "as the machine sews"), ("4", "4 times"), ("20", "20 times"),
           ("100", "100 times"), ("500", "500 times"))  # fmt: skip
_STEPS = (
    ("first", "To the start"),
    ("run-back", "Run back"),
    ("back", "Stitch back"),
    ("play", "Play"),
    ("on", "Stitch on"),
    ("run-on", "Run on"),
    ("stop", "To the next cut or pause"),
    ("last", "To the end"),
)
_VIEWS = (("closer", "Closer"), ("wider", "Wider"), ("whole", "Whole"))
_READOUTS = (
    ("stitch", "stitch"),
    ("time", "time"),
    ("bobbin", "left on the bobbin"),
    ("hooping", "hooping"),
    ("run", "run"),
    ("needle", "needle in the field, mm"),
    ("state", "machine"),
)
_HELP = (
    "On the picture: drag or arrow keys move it, the wheel or + and - bring it closer and "
    "wider, 0 shows the whole, space plays and pauses. Time and thread are estimates."
)


def player_section(plan: Plan) -> Markup:
    """Return the player's controls; they wake up when scripts run."""
    chooser = tag(
        "select", *(_group(stage) for stage in plan.stages), id="scope", autocomplete="off"
    )
    return section(
        "player",
        "Watch it sew",
        tag(
            "p",
            "The player needs scripts, and this reader runs none.",
            id="no-scripts",
        ),
        tag(
            "div",
            tag("p", tag("label", "Show ", chooser), class_="choose"),
            _screen(),
            _slider(),
            _buttons(_STEPS, "Play"),
            tag("div", _speed(), _buttons(_VIEWS, "Picture"), class_="choose"),
            tag("dl", *(_readout(*one) for one in _READOUTS), class_="readouts"),
            tag("p", "", id="says", class_="small", role="status", aria_live="polite"),
            tag("p", _HELP, class_="small", id="screen-help"),
            id="stand",
            hidden=True,
        ),
    )


def player_data(plan: Plan) -> dict[str, Any]:
    """Return what the player plays: needle points in the fields, figures, colours."""
    machine = plan.project.machine
    return {
        "speed": machine.speed,
        "cutSeconds": plan.project.times.cut_seconds,
        "pauseSeconds": plan.project.times.pause_seconds,
        "bobbins": {
            one.colour: {"count": one.count, "fullMm": one.full_mm}
            for one in plan.estimate.bobbins
        },
        "stages": [_stage_data(stage, bobbin_starts(plan)) for stage in plan.stages],
    }


def _stage_data(stage: Stage, bobbins: Starts) -> dict[str, Any]:
    piece, lay = stage.piece, lay_colour(stage.thread.top)
    return {
        "name": stage.name,
        "outline": _tenths(piece.outline),
        "shadow": [] if piece.shadow is None else _tenths(piece.shadow),
        "threads": [stage.thread.top, *(own or UNTOLD for _, own in stage.later_threads)],
        "lay": lay,
        "marks": INK if lay == CLOTH else CLOTH,
        "hoop": HOOP if lay == CLOTH else NIGHT["hoop"],
        "thickness": stage.thickness_mm,
        "bobbinThread": stage.thread.bobbin,
        "hoopings": [
            _hooping_data(sewn) | {"bobbin": bobbins.get((stage.name, sewn.hooping.number))}
            for sewn in stage.hoopings
        ],
    }


def _hooping_data(sewn: SewnHooping) -> dict[str, Any]:
    hooping = sewn.hooping
    return {
        "number": hooping.number,
        "field": hooping.field,
        "centre": [round(distance, 4) for distance in hooping.centre],
        "turn": hooping.turn_deg,
        "marks": [
            [mark.name, *(round(distance, 2) for distance in mark.field)]
            for mark in hooping.marks
        ],
        "seconds": round(sewn.figures.seconds, 3),
        "threadMm": round(sewn.figures.bobbin_thread_mm, 1),
        **encoded_points(sewn),
    }


def _tenths(outline: Points) -> list[list[int]]:
    rows: list[list[int]] = in_steps(outline).tolist()
    return rows


def _group(stage: Stage) -> Markup:
    numbers = [one.hooping.number for one in stage.hoopings]
    options = [tag("option", f"whole stage {stage.name}", value=f"{stage.name} 0")]
    options += [
        tag("option", f"{stage.name}, hooping {number}", value=f"{stage.name} {number}")
        for number in numbers
    ]
    return tag("optgroup", *options, label=f"Stage {stage.name}")


def _screen() -> Markup:
    """Return the picture: sheets on top of each other, each drawn only when it changes."""
    sheets = (
        tag("canvas", id=f"sheet-{name}") for name in ("ground", "ghost", "thread", "needle")
    )
    return tag(
        "div",
        tag("div", *sheets, id="sheets", aria_hidden="true"),
        id="screen",
        tabindex=0,
        role="application",
        aria_label="picture of the sewing",
        aria_describedby="screen-help",
    )


def _slider() -> Markup:
    label = tag("label", "Stitch", for_="scrub", class_="unseen")
    return joined(
        label,
        tag(
            "input", id="scrub", type="range", min=0, max=0, value=0, step=1, autocomplete="off"
        ),
    )


def _buttons(names: tuple[tuple[str, str], ...], group: str) -> Markup:
    buttons = (tag("button", words, type="button", id=f"go-{name}") for name, words in names)
    return tag("div", *buttons, class_="buttons", role="group", aria_label=group)


def _speed() -> Markup:
    options = (
        tag("option", words, value=value, selected=value == "20") for value, words in _SPEEDS
    )
    return tag("label", "Speed ", tag("select", *options, id="speed", autocomplete="off"))


def _readout(name: str, words: str) -> Markup:
    return tag("div", tag("dt", words), tag("dd", "", id=f"shows-{name}"))
