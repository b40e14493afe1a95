"""Line files and tables of needle points: read back by other libraries, and by hand."""

import csv
import io
import json
import re
from collections.abc import Callable
from typing import TypeAlias

import ezdxf
import numpy as np
import pytest
import svgelements
from ezdxf import units
from hypothesis import given, settings
from hypothesis import strategies as st
from pyembroidery import STITCH, EmbPattern

from stitchpath.errors import FormatError
from stitchpath.machine import FileStitches, line_file, read_stitch_file
from stitchpath.machine.line_gcode import decode_gcode
from stitchpath.machine.line_svg import encode_svg
from stitchpath.machine.line_work import LineWork, Stretches, stretches_of
from stitchpath.machine.line_write import LINES, are_same
from stitchpath.machine.points_text import decode_csv, decode_json, encode_csv, encode_json
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.line import Line, LineKind
from stitchpath.model.machine import GcodeWords
from stitchpath.model.plan import Figures, SewnHooping
from stitchpath.model.route import RouteFigures
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.model.thread import ThreadPair
from tests.support.stitch_sets import flat_hooping, make_stitches

HOOPING = Hooping(
    number=2,
    field=(80.0, 60.0),
    centre=(100.0, 50.0),
    turn_deg=90.0,
    marks=(Mark(name="A", piece=(100.0, 60.0), field=(10.0, 0.0)),),
)
Lines: TypeAlias = list[list[list[list[float]]]]
"""Points of lines of runs."""
EVERY = ("svg", "dxf", "gcode", "csv", "json")


def _sewn(lines: Lines, hooping: Hooping = HOOPING) -> SewnHooping:
    runs = tuple(
        Run(
            lines=tuple(
                Line(points=np.array(line), stitch_mm=3.0, kind=LineKind.QUILTING)
                for line in run
            )
        )
        for run in lines
    )
    stitches = make_stitches(
        [lines[0][0][0], lines[0][0][0], lines[0][0][-1], lines[0][0][-1], lines[0][0][0]],
        [Op.JUMP, Op.STITCH, Op.STITCH, Op.CUT, Op.STITCH],
    )
    return SewnHooping(
        hooping=hooping,
        runs=runs,
        route=RouteFigures(),
        stitches=stitches,
        figures=Figures(),
    )


# Two lines that meet, then a hop; another run. The field is turned by 90 degrees around
# (100, 50): what lies 10 mm to the right on the piece is 10 mm up in the field (geometry).
TWO_RUNS: Lines = [
    [[[100, 50], [110, 50]], [[110, 50], [110, 60]], [[112, 60], [120, 60]]],
    [[[90, 40], [90.1234567, 45]]],
]
IN_FIELD: Lines = [
    [[[0, 0], [0, -10], [10, -10]], [[10, -12], [10, -20]]],
    [[[-10, 10], [-5, 9.877]]],
]


def _file(format_name: str, sewn: SewnHooping | None = None, **words: object) -> bytes:
    return line_file(
        sewn or _sewn(TWO_RUNS),
        format_name=format_name,
        name="Gull <Rock> (2) \u202e=1+1",
        thread=ThreadPair(top="#2a6f77"),
        gcode=GcodeWords(**words),  # type: ignore[arg-type]
    )


def test_a_run_is_one_polyline_where_its_lines_meet() -> None:
    for run, want in zip(_sewn(TWO_RUNS).runs, IN_FIELD, strict=True):
        assert [part.tolist() for part in stretches_of(run, HOOPING)] == want


def test_svg_is_read_by_another_library_as_the_runs_in_millimetres() -> None:
    svg = svgelements.SVG.parse(
        io.BytesIO(_file("svg")), ppi=25.4
    )  # a pixel is a millimetre then
    assert (svg.width, svg.height) == pytest.approx((80.0, 60.0))
    paths = [element for element in svg.elements() if isinstance(element, svgelements.Path)]
    assert [path.id for path in paths] == ["run-1", "run-2"]
    for path, want in zip(paths, IN_FIELD, strict=True):
        parts: list[list[list[float]]] = []
        for segment in path:
            if isinstance(segment, svgelements.Move):
                parts.append([])
            parts[-1].append([segment.end.x - 40, segment.end.y - 30])  # the viewBox's corner
        assert len(parts) == len(want)
        for part, stretch in zip(parts, want, strict=True):
            np.testing.assert_allclose(part, stretch, atol=1e-3)


def test_dxf_passes_the_audit_and_has_units_layers_and_a_polyline_for_each_run() -> None:
    """Units: header variable INSUNITS, 4 for millimetres (ezdxf's documentation, DXF Units)."""
    doc = ezdxf.read(io.StringIO(_file("dxf").decode()))  # type: ignore[attr-defined]
    assert doc.audit().errors == []
    assert doc.dxfversion == "AC1024"  # R2010, by the same documentation
    assert doc.units == units.MM
    assert doc.header["$INSUNITS"] == 4
    assert doc.header["$MEASUREMENT"] == 1
    assert (doc.header["$EXTMIN"], doc.header["$EXTMAX"]) == ((-40, -30, 0), (40, 30, 0))
    by_layer: dict[str, list[list[tuple[float, float]]]] = {}
    for line in doc.modelspace().query("LWPOLYLINE"):
        by_layer.setdefault(line.dxf.layer, []).append(list(line.get_points("xy")))  # type: ignore[attr-defined]
    assert by_layer["LINES"] == [
        [(x, -y) for x, y in stretch] for run in IN_FIELD for stretch in run
    ]
    assert by_layer["HOPS"] == [[(10, 10), (10, 12)]]
    assert len(by_layer["FIELD"][0]) == 5
    assert len(by_layer["MARKS"]) == 2


def test_gcode_says_what_it_should_line_by_line() -> None:
    lines = _file("gcode", needle_down="m3 s200", needle_up="G0 Z5", feed=1200).decode()
    assert lines.splitlines() == [
        "(lines of stitchpath)",
        "(Gull_Rock_2_1_1: 2 runs)",
        "(from the field's centre, x to the right, y up)",
        "G17 G21 G90 G94",
        "G0 Z5",
        "(run 1)",
        "G0 X0 Y0",
        "M3 S200",
        "G1 X0 Y10 F1200",
        "G1 X10 Y10",
        "G0 Z5",
        "G0 X10 Y12",
        "M3 S200",
        "G1 X10 Y20 F1200",
        "G0 Z5",
        "(run 2)",
        "G0 X-10 Y-10",
        "M3 S200",
        "G1 X-5 Y-9.877 F1200",
        "G0 Z5",
        "M2",
    ]


# Source: the NIST interpreter's manual for RS274/NGC as quoted in docs/sources.md: a word is a
# letter and a number; comments in parentheses do not nest; at most 256 characters a line.
_WORD = re.compile(r"[A-Z][-+]?\d+(\.\d+)?")


def test_gcode_lines_are_words_or_one_comment() -> None:
    for line in _file("gcode").decode("ascii").splitlines():
        assert len(line) <= 256
        if line.startswith("("):
            assert re.fullmatch(r"\([^()]*\)", line)
        else:
            assert all(_WORD.fullmatch(word) for word in line.split())
            # one command of the group of motion on a line
            assert sum(word in {"G0", "G1"} for word in line.split()) <= 1


def test_gcode_is_read_by_another_library_as_the_same_places() -> None:
    """Its reader takes x and y as mirrored, as its own writer mirrors them."""
    pattern = EmbPattern.read_gcode(io.BytesIO(_file("gcode")))
    places = [(-x / 10, -y / 10) for x, y, kind in pattern.stitches if kind == STITCH]
    want = [(x, -y) for run in IN_FIELD for stretch in run for x, y in stretch]
    np.testing.assert_allclose(places, want, atol=1e-9)


def test_csv_and_json_hold_the_needle_points_of_the_stitch_files() -> None:
    rows = list(csv.reader(io.StringIO(_file("csv").decode("ascii"))))
    assert rows == [
        ["command", "x_mm", "y_mm"],
        ["jump", "0.0", "0.0"],
        ["stitch", "0.0", "0.0"],
        ["stitch", "0.0", "-10.0"],
        ["cut", "0.0", "-10.0"],
        ["stitch", "0.0", "0.0"],
    ]
    data = json.loads(_file("json"))
    assert (data["schema"], data["unit"]) == ("stitchpath-points-1", "mm")
    assert data["points"] == [[word, float(x), float(y)] for word, x, y in rows[1:]]


@pytest.mark.parametrize("kind", ["csv", "json"])
def test_tables_of_ours_are_read_as_stitch_files(kind: str) -> None:
    def never(data: bytes, name: str) -> FileStitches:
        raise AssertionError(f"{name} of {len(data)} bytes is ours")

    file = read_stitch_file(_file(kind), ".txt", by_library=never)
    assert file.format == kind
    assert len(file.read.needle_points_units) == 3
    with pytest.raises(FormatError, match="no needle points"):
        read_stitch_file(_file("gcode"), ".nc", by_library=never)


@pytest.mark.parametrize(
    ("decode", "data"),
    [
        (decode_csv, b"command,x_mm,y_mm\r\nstitch,1"),
        (decode_csv, b"command,x_mm,y_mm\r\nknot,1,1"),
        (decode_csv, b"command,x_mm,y_mm\r\nstitch,inf,1"),
        (decode_csv, b"command,x_mm,y_mm\r\nstitch,\xff,1"),
        (decode_json, b'{"schema": "stitchpath-points-1"}'),
        (decode_json, b'{"schema": "stitchpath-points-1", "points": 7}'),
        (decode_json, b'{"schema": "stitchpath-points-1", "points": [["stitch", 1e999, 0]]}'),
        (decode_json, b'{"schema": "stitchpath-points-1", "points": [[{}, 1, 0]]}'),
        (decode_json, b"[" * 100_000),
    ],
)
def test_damaged_tables_are_refused(
    decode: Callable[[bytes], FileStitches], data: bytes
) -> None:
    with pytest.raises(FormatError, match="needle points"):
        decode(data)


places = st.integers(-3000, 3000)


@given(st.lists(st.tuples(st.sampled_from(list(Op)), places, places), max_size=30))
def test_tables_read_back_exactly(rows: list[tuple[Op, int, int]]) -> None:
    xy = np.array([row[1:] for row in rows], dtype=np.int64).reshape(-1, 2)
    op = np.array([row[0] for row in rows], dtype=np.uint8)
    for read in (decode_csv(encode_csv(xy, op)), decode_json(encode_json(xy, op))):
        assert read.xy_units.tolist() == xy.tolist()
        assert read.op.tolist() == op.tolist()


coordinates = st.floats(-400, 400)
polylines = st.lists(st.lists(coordinates, min_size=2, max_size=2), min_size=2, max_size=6)


@settings(max_examples=max(settings().max_examples // 10, 5), deadline=None)
@given(st.lists(st.lists(polylines, min_size=1, max_size=3), min_size=1, max_size=4))
def test_any_lines_read_back_from_every_format(lines: Lines) -> None:
    sewn = _sewn(lines, flat_hooping())
    for format_name in EVERY:
        assert _file(format_name, sewn) == _file(format_name, sewn)  # no date, no chance


def test_what_does_not_read_back_is_seen() -> None:
    run = tuple(np.array(part, dtype=float) for part in IN_FIELD[0])
    assert are_same([run], [run])
    assert not are_same([run], [run[:1]])
    assert not are_same([run], [(run[0] + 0.001, run[1])])
    assert not are_same([run], [(run[0][:2], run[1])])


def test_a_file_that_differs_is_not_written(monkeypatch: pytest.MonkeyPatch) -> None:
    def nothing(_data: bytes, _work: LineWork) -> list[Stretches]:
        return []

    monkeypatch.setitem(LINES, "svg", (encode_svg, nothing))
    with pytest.raises(
        FormatError, match="svg file of hooping 2 does not read back as planned"
    ):
        _file("svg")


def test_gcode_that_sews_with_the_needle_up_is_a_bug() -> None:
    work = LineWork(
        name="x", colour="#000000", field=(1, 1), runs=(), marks=(), gcode=GcodeWords()
    )
    with pytest.raises(ValueError, match="the needle is up on the way"):
        decode_gcode(b"(run 1)\nG1 X1 Y1 F9\n", work)
    with pytest.raises(ValueError, match="no line of ours: G2 X1"):
        decode_gcode(b"G2 X1\n", work)


def test_a_line_shorter_than_a_micron_keeps_both_ends() -> None:
    sewn = _sewn([[[[10, 10], [10.0001, 10]]]], flat_hooping())
    (stretch,) = stretches_of(sewn.runs[0], sewn.hooping)
    assert stretch.tolist() == [[10, 10], [10, 10]]
    assert isinstance(sewn.stitches, Stitches)
