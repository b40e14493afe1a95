"""Booklets to test with, and their needle points read back without any code of theirs."""

import base64
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.preview.data import Files
from tests.support.plans import small_plan

HOSTILE: Final = "<script>alert('1')</script> & \"q\" </style> ]]> 🧵 שלום {{x}}"
"""Markup, quotes, an emoji and text written from the right."""
CAUTIONS: Final = ("keep hands out of the field", "read the machine's manual")


def cautious(plan: Plan, cautions: Sequence[str] = CAUTIONS) -> Plan:
    """Return a plan with cautions among its findings, last."""
    more = (Finding(code="cautions", level=Level.NOTE, text=text) for text in cautions)
    return replace(plan, findings=(*plan.findings, *more))


def files_of(plan: Plan) -> Files:
    """Return names of stitch files for every hooping of a plan."""
    return {
        (stage.name, sewn.hooping.number): {"dst": f"{stage.name}/{sewn.hooping.number:02}.dst"}
        for stage in plan.stages
        for sewn in stage.hoopings
    }


def hostile_plan() -> Plan:
    """Return a plan whose every text of the maker's is hostile."""
    plan = small_plan(HOSTILE)
    said = Finding(
        code="general",
        level=Level.ERROR,
        text=HOSTILE,
        help=HOSTILE,
        stage="quilt",
        where=(9, 9),
    )
    cuts = tuple(replace(cut, what=HOSTILE) for cut in plan.cutting)
    return replace(plan, findings=(said, *plan.findings), cutting=cuts)


def points_of(data: dict[str, Any]) -> NDArray[np.int64]:
    """Return a hooping's needle points, tenths of a mm in its field, shape (n, 2).

    Read as the format is written down, a byte at a time.
    """
    bytes_ = base64.b64decode(data["steps"], validate=True)
    count = data["count"]
    assert len(bytes_) == 2 * count
    wide = {at: (x, y) for at, x, y in data["wide"]}
    at, rows = (0, 0), []
    for row in range(count):
        near = tuple(
            byte - 256 if byte > 127 else byte for byte in (bytes_[row], bytes_[count + row])
        )
        x, y = wide.get(row, near)
        at = (at[0] + x, at[1] + y)
        rows.append(at)
    return np.array(rows, dtype=np.int64).reshape(-1, 2)
