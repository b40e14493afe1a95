"""Files of every design in every format, read as a stranger's are, come to what the plan says.

What a format cannot keep is as docs/formats.md has it: in pes every uncut jump is read as a
cut, in dst and jef one of three hops or more, in vp3 one is a long stitch. A file does not say
what the maker snips: without cuts by the machine its runs are one.
"""

from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any, Final

import numpy as np
import pytest

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.files import load_project
from stitchpath.cli.inspected import Inspected, inspected_data
from stitchpath.cli.stitch_files import Counting, OpenedFile, count_file
from stitchpath.machine import line_file, read_stitch_file, sewn_part, stitch_file
from stitchpath.machine.library_read import decode_by_library
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.model.stitches import Op
from stitchpath.pipeline import plan
from stitchpath.preview import plan_data
from tests.support.command_line import DESIGNS

_POINTS: Final = ("csv", "json")
_ALL: Final = (*FORMATS, *_POINTS)
_LEAST_CUT_MM: Final = {"pes": 0.0, "dst": 24.25, "jef": 25.45}
"""An uncut jump from so far on is read as a cut: 24.3 and 25.5 mm, to the tenth."""
_THREADS: Final = ("top_thread_mm", "bobbin_thread_mm")
_TENTH: Final = 0.0501
"""mm; needle points are rounded to tenths along each axis."""


@pytest.mark.slow
@pytest.mark.parametrize("path", sorted(DESIGNS.glob("*.toml")), ids=lambda path: path.stem)
def test_files_come_to_what_the_plan_says(path: Path) -> None:
    project = load_project(path)
    machine = replace(project.machine, formats=tuple(FORMATS))
    planned = plan(replace(project, machine=machine))
    said, snip_s = plan_data(planned, {})["stages"], project.times.snip_seconds
    for stage, stage_said in zip(planned.stages, said, strict=True):
        for sewn, hooping_said in zip(stage.hoopings, stage_said["hoopings"], strict=True):
            for name in _ALL:
                found = _inspected(planned, stage, sewn, name)
                assert found["format"] == name
                _assert_same(hooping_said, found, sewn, snip_s=snip_s)


def _inspected(planned: Plan, stage: Stage, sewn: SewnHooping, name: str) -> dict[str, Any]:
    """Write a hooping in a format, and return what `inspect` says of the file."""
    machine, thread = planned.project.machine, stage.thread
    if name in _POINTS:
        data = line_file(sewn, format_name=name, name="a", thread=thread, gcode=machine.gcode)
    else:
        data = stitch_file(
            sewn.stitches, sewn.hooping, format=FORMATS[name], name="a", thread=thread
        )
    file = read_stitch_file(
        data, f".{name}", by_library=lambda data, name: decode_by_library(data, name=name)
    )
    opened = OpenedFile(path=Path(f"a.{name}"), file=file, stitches=sewn_part(file.read))
    counted = count_file(opened, Counting(machine=machine, thickness_mm=stage.thickness_mm))
    return inspected_data(Inspected.of(opened, counted, bobbin="L", field=sewn.hooping.field))


def _assert_same(
    said: dict[str, Any], found: dict[str, Any], sewn: SewnHooping, *, snip_s: float
) -> None:
    name = found["format"]
    assert (found["whole"] is not False, found["faults"]) == (True, [])
    assert found["fits_as_it_lies"] is True
    totals, uncut = found["totals"], _uncut_jumps_mm(sewn)
    read_as_cuts = sum(_LEAST_CUT_MM.get(name, np.inf) <= way for way in uncut)
    stretched = len(uncut) if name == "vp3" else 0
    assert totals["stitches"] == said["stitches"]
    assert totals["pauses"] == said["pauses"]
    assert totals["jumps"] == said["jumps"] - stretched
    assert totals["thread_cuts"] == said["thread_cuts"] + read_as_cuts
    assert found["bounds"] == pytest.approx(said["bounds"], abs=_TENTH)
    if not read_as_cuts and not stretched:
        snips_s = (said["runs"] - totals["runs"]) * snip_s
        assert totals["seconds"] == pytest.approx(said["seconds"] - snips_s, rel=1e-4)
        for thread in _THREADS:
            assert totals[thread] == pytest.approx(said[thread], rel=0.005)


def _uncut_jumps_mm(sewn: SewnHooping) -> list[float]:
    """Return the longer way along an axis of the field, for each jump with the thread uncut."""
    op = sewn.stitches.op
    xy = np.round(sewn.hooping.to_field(sewn.stitches.xy), 1)
    rows = np.flatnonzero(op == Op.STITCH).tolist()
    return [
        float(np.abs(xy[end] - xy[start]).max())
        for start, end in pairwise(rows)
        if Op.JUMP in op[start:end] and Op.CUT not in op[start:end]
    ]
