"""A commented starter project: a throw that folds away into its pocket."""

from typing import Final

from stitchpath.project.fault import Path
from stitchpath.project.keys import Key, project_key
from stitchpath.project.wording import exact_text, limits_text, table_header
from stitchpath.units import Unit

_COMMENT_COLUMN: Final = 30
_WIDEST: Final = 96
_HEAD: Final = """\
# A project for stitchpath: a throw that folds away into the pocket sewn to it.
#
# Change what is not yours: first the sizes, then [batting] and [machine]. Every key but the
# quilt's width and length may be left out. A length is written `3.5 mm`, `12 cm`, `2 1/2 in` or
# '1/4"'; a number without a unit is in the unit that `units` says.
#
# Before you sew: wash-test the cloth and the ink you mark with, and read your machine's manual;
# keep fingers out of the hoop while it moves. A throw or a cushion is not for a baby's sleep.
"""
_ABOUT: Final[dict[str, str]] = {
    "quilt": "The quilt, finished, as it lies face up.",
    "quilt.quilting": "The quilt's quilting. Repeat this table for more than one layout;"
    " a later one takes\n# its area from the earlier ones.",
    "pocket": "The pocket, centred near the quilt's bottom edge, its mouth towards the middle."
    "\n# Folded in thirds across and in quarters along, the throw goes in: a third of its width"
    "\n# and a quarter of its length, and the thickness of the folds, are less than the pocket."
    "\n# Leave the three pocket tables out for a quilt without one.",
    "pocket.quilting": "The pocket is quilted by itself, before it is sewn on.",
    "pocket.seam": "Sewing the pocket on: three sides, and a triangle at both corners of the"
    " mouth.",
    "batting": "The batting, as its wrapper describes it.",
    "fabric": "The cloth of top, backing and pocket.",
    "machine": "Your machine. Take the sizes from its manual, or measure.",
    "machine.gcode": "For frames and plotters that read the format gcode: how fast they sew,"
    "\n# and which words put the needle or pen down and up. See the manual, and try it without"
    "\n# a needle.",
    "hoopings": "How a stage is divided over hoopings.",
    "times": "How long things take you. Time one file at the machine and let"
    "\n# `stitchpath count --timed` find the speed factor.",
    "supplies": "Your thread.",
    "checks": "From where on `stitchpath check` warns. docs/checks.md tells what it measures.",
    "route": "How the needle gets from line to line. A cut costs seconds, and so does a mm sewn"
    "\n# twice; the cheaper is taken where `travel` allows it.",
    "sheets": "The true-scale sheets to print.",
}
_SAME: Final[dict[str, str]] = {
    "name": '"Gull Rock reading throw"',
    "quilt.edge": '"turned"',
    "quilt.quilting.layout": '"crosshatch"',
    "quilt.quilting.start": '"centre"',
    "quilt.quilting.angle": "0",
    "quilt.quilting.margin": "0",
    "quilt.quilting.stitch_length": '"2.8 mm"',
    "quilt.quilting.thread.top": '"slategray"',
    "quilt.quilting.thread.bobbin": '"slategray"',
    "pocket.quilting.layout": '"diagonal"',
    "pocket.quilting.start": '"centre"',
    "pocket.quilting.angle": "0",
    "pocket.quilting.margin": "0",
    "pocket.quilting.stitch_length": '"2.8 mm"',
    "pocket.quilting.thread.top": '"tomato"',
    "pocket.quilting.thread.bobbin": '"slategray"',
    "pocket.seam.passes": "3",
    "pocket.seam.sew": '"sides"',
    "pocket.seam.stitch_length": '"2.5 mm"',
    "pocket.seam.load": "8",
    "pocket.seam.thread_strength": "5",
    "pocket.seam.fibre": '"cotton"',
    "pocket.seam.thread.top": '"tomato"',
    "pocket.seam.thread.bobbin": '"slategray"',
    "batting.thickness": '"3 mm"',
    "batting.shrinkage": '"3 %"',
    "fabric.shrinkage": '"3 %"',
    "machine.field": '["200 mm", "300 mm"]',
    "machine.fields": "[]",
    "machine.ring_wall": '"10 mm"',
    "machine.ring_corner": "0",
    "machine.foot": '"6.35 mm"',
    "machine.formats": '["dst", "exp"]',
    "machine.speed": "600",
    "machine.cuts_thread": "true",
    "machine.bobbin": '"L"',
    "machine.longest_stitch": '"7 mm"',
    "machine.shortest_stitch": '"1 mm"',
    "machine.bobbin_pull_up": '"seam"',
    "machine.gcode.needle_down": '"M3"',
    "machine.gcode.needle_up": '"M5"',
    "hoopings.overlap": '"6 mm"',
    "hoopings.turn": "true",
    "hoopings.order": '"middle"',
    "hoopings.room": '"3 mm"',
    "hoopings.placing_error": '"0.7 mm"',
    "hoopings.sew_marks": "false",
    "hoopings.basting_box": "false",
    "route.travel": '"edge"',
    "route.cut_seconds": "5",
    "route.snip_seconds": "15",
    "route.again_penalty": "0.05",
    "route.parallel": '"alternate"',
    "fabric.directional": "false",
    "fabric.backing_from": '"own"',
    "fabric.pocket_from": '"own"',
    "fabric.binding_from": '"own"',
    "times.speed_factor": "1.0",
    "times.ramp_stitches": "8",
    "times.cut_seconds": "5",
    "times.snip_seconds": "15",
    "times.pause_seconds": "20",
    "times.thread_minutes": "1",
    "times.bobbin_minutes": "2",
    "times.hooping_minutes": "5",
    "times.placing_minutes": "3",
    "times.evening_hours": "2",
    "supplies.thread_tex": "20",
    "supplies.thread_waste": '"15 %"',
    "supplies.spool_metres": "500",
    "route.close_loops": "false",
    "checks.needle_points": "4",
    "checks.needle_points_tied": "8",
    "checks.passes": "3",
    "checks.passes_triangle": "4",
    "checks.snag": '"7 mm"',
    "checks.closest": '"6 mm"',
}
_SIZES: Final[dict[str, tuple[str, str, str]]] = {
    # key                            mm       cm       in
    "quilt.width": ("1050", "105", "42"),
    "quilt.length": ("1400", "140", "56"),
    "quilt.seam_allowance": ("7", "0.7", '"1/4"'),
    "quilt.edge_stitch": ("8", "0.8", '"5/16"'),
    "quilt.quilting.spacing": ("75", "7.5", "3"),
    "pocket.width": ("440", "44", '"17 1/2"'),
    "pocket.length": ("440", "44", '"17 1/2"'),
    "pocket.raise": ("10", "1", '"3/8"'),
    "pocket.mouth_stitch": ("8", "0.8", '"5/16"'),
    "pocket.quilting.spacing": ("45", "4.5", '"1 3/4"'),
    "pocket.seam.inset": ("5", "0.5", '"3/16"'),
    "pocket.seam.corner_side": ("22", "2.2", '"7/8"'),
    "pocket.seam.corner_across": ("12", "1.2", '"1/2"'),
    "batting.quilting_distance": ("100", "10", "4"),
    "fabric.usable_width": ("1050", "105", "40"),
    "machine.ring": ("[240, 340]", "[24, 34]", "['9 1/2', '13 1/2']"),
    "fabric.backing_width": ("1050", "105", "40"),
    "fabric.binding_width": ("65", "6.5", '"2 1/2"'),
    "fabric.hooping_margin": ("50", "5", "2"),
    "machine.gcode.feed": ("1500", "150", "60"),
    "machine.throat": ("[230, 130]", "[23, 13]", "[9, 5]"),
    "sheets.paper": ('"a4"', '"a4"', '"letter"'),
}
_OPTIONAL: Final[dict[str, tuple[str, str, str]]] = {
    # key           mm                       cm                       in
    "area": ("{ border = 100 }", "{ border = 10 }", "{ border = 4 }"),
    "keep_out": ("[{ footprint = true }]",) * 3,
    "fit": ("true",) * 3,
    "fit_limit": ('"10 %"',) * 3,
    "gap": ("6", "0.6", '"1/4"'),
    "count": ("3",) * 3,
    "period": ("150", "15", "6"),
    "amplitude": ("20", "2", '"3/4"'),
    "seed": ("1",) * 3,
    "text": ('"Low Tide 26"',) * 3,
    "height": ("40", "4", '"1 1/2"'),
    "svg": ('"leaf.svg"',) * 3,
    "width": ("80", "8", "3"),
    "at": ("[300, 400]", "[30, 40]", "[12, 16]"),
    "repeat": ('"half-drop"',) * 3,
}
"""Keys of one layout or another; they stand as comments, for most layouts do not read them."""
_OPTIONAL_HEAD: Final = """\
# Keys for some layouts; `stitchpath list layouts` tells which reads which. To use one, take
# away the `#` before it."""
_COMMENTED: Final = frozenset({"silence", "design"})
"""Tables that stand as comments, each with a text of its own."""
_SILENCE: Final = """
# A check that is to be quiet, and why. To use it, take the three `#` away.
#[[checks.silence]]
#check = "close-quilting"      # the check to be quiet
#reason = "a stiff mat"        # why, shown beside what it would have said"""
_DESIGN: Final = """
# A stitch file placed on the piece; `[[pocket.design]]` for the pocket. To use it, take the `#`
# before each line away. docs/project-file.md has all its keys.
#[[quilt.design]]
#file = "heron.exp"            # stitch file that is sewn, from this folder
#angle = 0                     # degrees by which it is turned (-360 to 360)"""
_COLUMNS: Final[dict[Unit, int]] = {"mm": 0, "cm": 1, "in": 2}


def starter_project(units: Unit) -> str:
    """Return the text of a starter project that can be planned as it stands.

    Each key has a comment with its meaning and its limits or choices. Keys that only some
    layouts read stand behind a `#`, under the quilt's layout alone.

    Args:
        units: What a bare number means in the project; sizes are round in it.

    Example:
        >>> lines = starter_project("cm").splitlines()
        >>> next(line for line in lines if line.startswith("passes "))
        'passes = 3                    # how often a leg is sewn, at the most (1 to 5)'
    """
    return "\n".join([_HEAD, *_table(project_key(), (), units)]) + "\n"


def _table(table: Key, path: Path, units: Unit) -> list[str]:
    """Return a table's own keys, then the tables within it."""
    lines = [
        _line(key, (*path, key.name), units)
        for key in table.keys
        if not _is_opened(key) and not _is_optional(key, path) and key.name not in _COMMENTED
    ]
    if path == ("quilt", "quilting"):
        lines.append(_OPTIONAL_HEAD)
        lines += [_comment(key, units) for key in table.keys if _is_optional(key, path)]
        lines.append(_DESIGN)
    if path == ("checks",):
        lines.append(_SILENCE)
    for key in table.keys:
        if _is_opened(key) and not _is_optional(key, path):
            here = (*path, key.name)
            lines += ["", f"# {_ABOUT['.'.join(map(str, here))]}", table_header(here, key.kind)]
            lines += _table(key, here, units)
    return lines


def _is_optional(key: Key, path: Path) -> bool:
    return path[-1:] == ("quilting",) and key.name in _OPTIONAL


def _comment(key: Key, units: Unit) -> str:
    """Return a key as a comment: take the `#` before the key away, and it is a line."""
    line = f"{key.name} = {_OPTIONAL[key.name][_COLUMNS[units]]}"
    told, _, below = _commented(line, key.description).rpartition("\n")
    return f"{told}\n#{below}" if told else f"#{below}"


def _is_opened(key: Key) -> bool:
    """Tell whether a table has a header of its own; a pair of threads stands on one line."""
    return bool(key.keys) and key.name not in {"thread", *_COMMENTED}


def _line(key: Key, path: Path, units: Unit) -> str:
    if key.keys:
        pairs = [f"{inner.name} = {_value((*path, inner.name), units)}" for inner in key.keys]
        line = f"{key.name} = {{ {', '.join(pairs)} }}"
        return _commented(line, f"{key.description} ({limits_text(key.keys[0], units)})")
    return _commented(f"{key.name} = {_value(path, units)}", _told(key, units))


def _value(path: Path, units: Unit) -> str:
    name = ".".join(map(str, path))
    if name == "units":
        return f'"{units}"'
    return _SAME[name] if name in _SAME else _SIZES[name][_COLUMNS[units]]


def _told(key: Key, units: Unit) -> str:
    return f"{key.description} ({_limits(key.item or key, units)})"


def _limits(key: Key, units: Unit) -> str:
    """Return limits or choices as briefly as they can be said."""
    if key.kind == "length":
        return " to ".join(exact_text(limit, units) for limit in (key.low, key.high))
    if key.kind == "switch":
        return "true or false"
    brief = limits_text(key, units).replace("between ", "").replace(" and ", " to ")
    return brief.replace("`", "")


def _commented(line: str, told: str) -> str:
    """Put a comment beside a line where both fit, otherwise above it."""
    beside = f"{line:<{_COMMENT_COLUMN}}# {told}"
    fits = len(line) < _COMMENT_COLUMN and len(beside) < _WIDEST
    return beside if fits else f"# {told}\n{line}"
