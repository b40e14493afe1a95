"""Text tables and figures for the terminal."""

import re
from collections.abc import Sequence
from typing import Final

_NUMBER: Final = re.compile(r"(?=-?\d)-?([\d,.]+)?( ?\d+/\d+)?( [a-zA-Z]+)?( \d+ min)?")
"""`1,200`, `8.8 m`, `2 h 30 min`, `17 1/8 in`, `1/2 in`; not `100 x 100 mm`."""


def show_table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return a table with its columns lined up; those of numbers to the right, but the first.

    Example:
        >>> print(show_table(("stage", "stitches"), [("quilt", "1,200"), ("seam", "90")]))
        stage  stitches
        quilt     1,200
        seam         90
    """
    table = [heads, *rows]
    widths = [max(len(row[column]) for row in table) for column in range(len(heads))]
    is_number = [
        column > 0 and all(_NUMBER.fullmatch(row[column]) for row in rows)
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
