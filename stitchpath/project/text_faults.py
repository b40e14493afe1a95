"""Texts that cannot be read as what their key takes."""

from collections.abc import Callable
from typing import Final, TypeAlias, cast

import webcolors

from stitchpath.project.case import Case
from stitchpath.project.choices import not_a_choice
from stitchpath.project.fault import Code, Fault
from stitchpath.project.nearest import nearest

Reading: TypeAlias = Callable[[Case], Fault]
"""How an error is put in a maker's words."""


def _text(case: Case) -> str:
    return cast("str", case.value)


def _choice(case: Case) -> Fault:
    return not_a_choice(case.path, case.key, _text(case))


def _unreadable(code: Code, what: str) -> Reading:
    def reading(case: Case) -> Fault:
        return Fault(
            code=code,
            path=case.path,
            message=f"{case.name} is not {what}: {case.typed}",
            label=case.limits,
            help=case.why,
        )

    return reading


def _not_a_file(code: Code, what: str, *, kind: str, help_: str) -> Reading:
    def reading(case: Case) -> Fault:
        return Fault(
            code=code,
            path=case.path,
            message=f"{case.name} cannot be read as {what}: {case.typed}",
            label=f"must be {kind} in the project's folder, or in a folder within it",
            notes=(case.why,),
            help=help_,
        )

    return reading


def _not_a_colour(case: Case) -> Fault:
    near = nearest(_text(case), webcolors.names())
    return Fault(
        code="not-a-colour",
        path=case.path,
        message=f"{case.name} is not a colour: {case.typed}",
        label=case.limits,
        help=f"the nearest colour is `{near}`" if near else "a hex code has 6 digits after `#`",
    )


def _not_a_name(case: Case) -> Fault:
    return Fault(
        code="control-character" if "control character" in case.why else "not-a-name",
        path=case.path,
        message=f"{case.name} {case.why}",
        label=case.limits,
        help="use plain text, as it should stand on a printed sheet",
    )


def _too_long(case: Case) -> Fault:
    return Fault(
        code="wrong-count",
        path=case.path,
        message=f"{case.name} has {len(_text(case)):,} characters",
        label=case.limits,
        help="use fewer words, or a second layout for a second line",
    )


TEXT_READINGS: Final[dict[str, Reading]] = {
    "literal_error": _choice,
    "length": _unreadable("not-a-length", "a length"),
    "share": _unreadable("not-a-percentage", "a percentage"),
    "gcode": _unreadable("not-gcode", "words of G-code for a needle"),
    "colour": _not_a_colour,
    "name": _not_a_name,
    "string_too_long": _too_long,
    "drawing": _not_a_file(
        "not-a-drawing",
        "a drawing",
        kind="an SVG file",
        help_="docs/project-file.md says what of an SVG file is read",
    ),
    "design": _not_a_file(
        "not-a-design",
        "a design",
        kind="a stitch file",
        help_="`stitchpath inspect` says what is in a stitch file",
    ),
}
"""By the name of the error, for values that are text."""
