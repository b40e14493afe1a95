"""Problems as text: the user's own line with a caret, what is wrong, what to do."""

import unicodedata
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from stitchpath.errors import Problem, Span
from stitchpath.model.quantities import breaks_lines

_WIDEST: Final = 88
"""Columns of a source line shown; of a longer one, the part around the caret."""
_LEAD: Final = 20
"""Columns kept before the caret of a clipped line."""
_FAR: Final = 400
"""Characters looked at on either side of the caret: a line can be a megabyte long."""
_TAB: Final = 4
_STYLES: Final = {"error": "1;31", "place": "36", "help": "1;32"}


def render_problems(
    problems: Sequence[Problem], *, text: str, name: str, colour: bool = False
) -> str:
    """Return problems as a maker reads them, with a count at the end.

    Args:
        problems: In the order they are to be shown in.
        text: The file's text, which the places refer to.
        name: What to call the file.
        colour: With ANSI colours; no word depends on them.

    Returns:
        Lines joined by newlines, without one at the end. Control characters of the file are
        shown as a replacement character, so that a file cannot steer a terminal.
    """
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").split("\n")
    name = _clean(name)
    parts = [_problem(_cleaned(problem), lines, name, colour) for problem in problems]
    count = len(problems)
    parts.append(f"{count} {'problem' if count == 1 else 'problems'} in {name}")
    return "\n\n".join(parts)


def _cleaned(problem: Problem) -> Problem:
    return replace(
        problem,
        message=_clean(problem.message),
        key=_clean(problem.key),
        label=_clean(problem.label),
        notes=tuple(map(_clean, problem.notes)),
        help=_clean(problem.help),
    )


def _problem(problem: Problem, lines: list[str], name: str, colour: bool) -> str:
    head = _styled(f"error[{problem.code}]", "error", colour)
    key = f" ({problem.key})" if problem.key else ""
    span, notes = problem.span, list(problem.notes)
    rows = [f"{head}: {problem.message}"]
    if span is None or span.line > len(lines):
        rows.append(_styled(f"  --> {name}{key}", "place", colour))
        notes = [problem.label, *notes] if problem.label else notes
        indent = " "
    else:
        place = f"{name}:{span.line}:{span.column}{key}"
        indent = " " * len(str(span.line))
        rows.append(_styled(f"{indent} --> {place}", "place", colour))
        rows += _source(lines[span.line - 1], span, problem.label, colour)
    rows += [f"{indent} = note: {note}" for note in notes]
    if problem.help:
        rows += ["", f"{_styled('help', 'help', colour)}: {problem.help}"]
    return "\n".join(rows)


def _source(line: str, span: Span, label: str, colour: bool) -> list[str]:
    margin = " " * len(str(span.line))
    start = min(span.column - 1, len(line))
    end = start + min(span.width, _FAR)
    before = _cells(line[max(start - _FAR, 0) : start])
    marked = _cells(line[start:end], _columns(before))
    after = _cells(line[end : end + _FAR], _columns(before + marked))
    before, marked, after = _clip(before, marked, after)
    carets = "^" * max(_columns(marked), 1)
    pointer = _styled(f"{carets} {label}".rstrip(), "error", colour)
    return [
        f"{margin} |",
        f"{span.line} | {before}{marked}{after}".rstrip(),
        f"{margin} | {' ' * _columns(before)}{pointer}",
    ]


def _clip(before: str, marked: str, after: str) -> tuple[str, str, str]:
    """Keep what is around the mark of a line that is too wide."""
    if _columns(before + marked + after) <= _WIDEST:
        return before, marked, after
    if _columns(before) > _LEAD and _columns(before + marked) > _WIDEST // 2:
        before = "…" + _last_columns(before, _LEAD)
    marked = _first_columns(marked, _WIDEST - _columns(before))
    return before, marked, _first_columns(after, _WIDEST - _columns(before + marked))


def _first_columns(cells: str, width: int) -> str:
    if _columns(cells) <= width:
        return cells
    if width <= 0:
        return ""
    kept, used = [], 0
    for character in cells:
        used += _width(character)
        if used > width - 1:
            break
        kept.append(character)
    return "".join(kept) + "…"


def _last_columns(cells: str, width: int) -> str:
    kept, used = [], 0
    for character in reversed(cells):
        used += _width(character)
        if used > width:
            break
        kept.append(character)
    return "".join(reversed(kept))


def _cells(text: str, column: int = 0) -> str:
    """Return text as a terminal shows it from a column on: tabs as spaces, no controls."""
    if text.isascii() and text.isprintable():  # as nearly all is: nothing to look at
        return text
    shown = []
    for character in text:
        if character == "\t":
            spaces = _TAB - column % _TAB
            shown.append(" " * spaces)
            column += spaces
        else:
            safe = _clean(character)
            shown.append(safe)
            column += _width(safe)
    return "".join(shown)


def _columns(cells: str) -> int:
    return len(cells) if cells.isascii() else sum(map(_width, cells))


def _width(character: str) -> int:
    """Return the columns of one character (Unicode standard annex 11; none for marks)."""
    if unicodedata.combining(character) or unicodedata.category(character) in {
        "Mn",
        "Me",
        "Cf",
    }:
        return 0
    return 2 if unicodedata.east_asian_width(character) in {"W", "F"} else 1


def _clean(text: str) -> str:
    if text.isprintable():
        return text
    return "".join("\N{REPLACEMENT CHARACTER}" if breaks_lines(c) else c for c in text)


def _styled(text: str, style: str, colour: bool) -> str:
    return f"\x1b[{_STYLES[style]}m{text}\x1b[0m" if colour else text
