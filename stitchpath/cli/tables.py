"""Text tables and figures for the terminal."""

import json
from collections.abc import Sequence
from typing import Any

_MINUTE, _HOUR = 60, 60


def show_table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return a table with its columns lined up; columns of numbers to the right.

    Example:
        >>> print(show_table(("stage", "stitches"), [("quilt", "1,200"), ("seam", "90")]))
        stage  stitches
        quilt     1,200
        seam         90
    """
    table = [heads, *rows]
    widths = [max(len(row[column]) for row in table) for column in range(len(heads))]
    is_number = [
        all(row[column][:1].isdigit() for row in rows) and bool(rows)
        for column in range(len(heads))
    ]
    lines = (
        "  ".join(
            cell.rjust(width) if number else cell.ljust(width)
            for cell, width, number in zip(row, widths, is_number, strict=True)
        )
        for row in table
    )
    return "\n".join(line.rstrip() for line in lines)


def show_time(seconds: float) -> str:
    """Return a time as a maker reads it.

    Example:
        >>> show_time(41), show_time(1500), show_time(9000)
        ('41 s', '25 min', '2 h 30 min')
    """
    if seconds < _MINUTE:
        return f"{round(seconds)} s"
    hours, minutes = divmod(round(seconds / _MINUTE), _HOUR)
    return f"{hours} h {minutes} min" if hours else f"{minutes} min"


def show_metres(length_mm: float) -> str:
    """Return a length of thread in metres.

    Example:
        >>> show_metres(12_345)
        '12.3 m'
    """
    return f"{length_mm / 1000:,.1f} m"


def show_json(data: Any) -> str:  # noqa: ANN401 - whatever JSON can hold
    """Return data as JSON text."""
    return json.dumps(data, indent=2, ensure_ascii=False)
