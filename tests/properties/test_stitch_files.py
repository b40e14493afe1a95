"""What holds for any stitches in all seven formats."""

import hashlib
import json
import os
import random
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.catalog.formats import FORMATS, Format
from stitchpath.geometry.points import Points
from stitchpath.machine import decode, stitch_file
from stitchpath.machine.records import make_records, round_to_units
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.thread import ThreadPair
from tests.support.library_files import read_by_library, rows_of, write_by_library
from tests.support.stitch_sets import (
    flat_hooping,
    gaps_by_hand,
    make_stitches,
    sewn_hoopings,
)

all_formats = pytest.mark.parametrize("format_", FORMATS.values(), ids=FORMATS)
GRID_ERROR_MM = 0.0708
"""Half the diagonal of a square of 0.1 mm: 0.05 * sqrt(2), rounded up."""


def _file(stitches: Stitches, hooping: Hooping, format_: Format, name: str = "sea") -> bytes:
    return stitch_file(
        stitches, hooping, format=format_, name=name, thread=ThreadPair(top="#2a6f77")
    )


@all_formats
@given(sewn=sewn_hoopings())
def test_file_holds_every_needle_point_to_the_tenth(
    format_: Format, sewn: tuple[Stitches, Hooping]
) -> None:
    stitches, hooping = sewn
    read = decode(_file(stitches, hooping, format_), format_.suffix).needle_points_units
    field = hooping.to_field(stitches.needle_points)
    np.testing.assert_array_equal(read, np.rint(field * 10))
    off = np.hypot(*(read / 10 - field).T)
    assert off.max() <= GRID_ERROR_MM


@all_formats
@given(sewn=sewn_hoopings())
def test_file_holds_every_pause_and_every_cut(
    format_: Format, sewn: tuple[Stitches, Hooping]
) -> None:
    stitches, hooping = sewn
    read = decode(_file(stitches, hooping, format_), format_.suffix)
    planned, found = gaps_by_hand(stitches.op), gaps_by_hand(read.op)
    assert [pauses for _, pauses in found] == [pauses for _, pauses in planned]
    lost = [i for i, (gap, want) in enumerate(zip(found, planned, strict=True)) if want > gap]
    assert lost == []


@all_formats
@given(sewn=sewn_hoopings())
def test_same_stitches_give_the_same_bytes_and_leave_chance_alone(
    format_: Format, sewn: tuple[Stitches, Hooping]
) -> None:
    state = random.getstate()
    assert _file(*sewn, format_) == _file(*sewn, format_)
    assert random.getstate() == state


own_codecs = pytest.mark.parametrize("name", ["dst", "exp"])


@own_codecs
@settings(max_examples=200)
@given(sewn=sewn_hoopings())
def test_own_codecs_write_the_librarys_bytes(name: str, sewn: tuple[Stitches, Hooping]) -> None:
    stitches, hooping = sewn
    records = make_records(round_to_units(stitches, hooping), stitches.op, FORMATS[name])
    want = write_by_library(name, records, title="sea")
    assert _file(stitches, hooping, FORMATS[name]) == want


@own_codecs
@settings(max_examples=200)
@given(sewn=sewn_hoopings(), data=st.data())
def test_own_codecs_read_what_the_library_reads_from_whole_and_damaged_files(
    name: str, sewn: tuple[Stitches, Hooping], data: st.DataObject
) -> None:
    whole = _file(*sewn, FORMATS[name])
    assert rows_of(decode(whole, name)) == read_by_library(name, whole)
    header = 512 if name == "dst" else 0
    at = data.draw(st.integers(header, len(whole) - 1))
    lost, put = data.draw(st.integers(0, 6)), data.draw(st.binary(max_size=6))
    is_cut_short = data.draw(st.booleans())
    damaged = whole[:at] + put + (b"" if is_cut_short else whole[at + lost :])
    assert rows_of(decode(damaged, name)) == read_by_library(name, damaged)


_HASHES = """
import hashlib, json, numpy as np
from stitchpath.catalog.formats import FORMATS
from stitchpath.machine import stitch_file
from stitchpath.model.thread import ThreadPair
from tests.support.stitch_sets import flat_hooping, make_stitches
xy = np.cumsum(np.random.default_rng(8).uniform(-5, 5, (400, 2)), axis=0)
op = np.zeros(400, dtype=np.uint8); op[50::50] = 2; op[51::50] = 1; op[25::50] = 3
print(json.dumps({name: hashlib.sha256(stitch_file(
    make_stitches(xy, op), flat_hooping(), format=format_, name="tide", thread=ThreadPair()
)).hexdigest() for name, format_ in FORMATS.items()}))
"""


def test_bytes_do_not_depend_on_the_hash_seed() -> None:
    hashes = [
        json.loads(
            subprocess.run(
                [sys.executable, "-c", _HASHES],
                env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.curdir},
                capture_output=True,
                check=True,
            ).stdout
        )
        for seed in ("1", "20250")
    ]
    assert hashes[0] == hashes[1]
    assert set(hashes[0]) == set(FORMATS)
    assert len(set(hashes[0].values())) == len(FORMATS)


def _random_walk() -> Points:
    rng = np.random.default_rng(20)
    turns = np.cumsum(rng.normal(0, 0.4, 100_000))
    steps = 2.8 * np.column_stack([np.cos(turns), np.sin(turns)])
    folded = np.cumsum(steps, axis=0) % 400  # a fold keeps every step's length or shortens it
    return np.where(folded < 200, folded, 400 - folded) - 100


def _long_diagonal() -> Points:
    # Steps so short that rounding them, not the positions, would lose the whole way.
    steps = np.full((100_000, 2), [np.sqrt(2) / 50, np.pi / 150])
    return np.cumsum(steps, axis=0) - [1400, 1000]


@all_formats
@pytest.mark.parametrize("points", [_random_walk(), _long_diagonal()], ids=["walk", "diagonal"])
def test_no_drift_over_100_000_stitches(format_: Format, points: Points) -> None:
    op = np.zeros(len(points), dtype=np.uint8)
    op[50_000] = Op.JUMP  # pes holds 65,535 stitches in a run
    stitches = make_stitches(points, op.tolist())
    data = _file(stitches, flat_hooping(), format_)
    read = decode(data, format_.suffix).needle_points_units
    off = np.hypot(*(read / 10 - stitches.needle_points).T)
    assert len(read) == 99_999
    assert off[-1000:].max() <= GRID_ERROR_MM
    assert off.max() <= GRID_ERROR_MM


@all_formats
@pytest.mark.parametrize(
    "name", ["", "\N{SPARKLES}\N{DOG}", 'he said "sew"', "two\r\nlines", "a)b;c\x1a", "x" * 600]
)
def test_any_name_leaves_the_stitches_alone(format_: Format, name: str) -> None:
    stitches = make_stitches([[1, 2], [3, 4], [5, 6]], [0, 0, 0])
    data = _file(stitches, flat_hooping(), format_, name)
    read = decode(data, format_.suffix).needle_points_units
    assert read.tolist() == [[10, 20], [30, 40], [50, 60]]
    plain = hashlib.sha256(_file(stitches, flat_hooping(), format_, "plain")).digest()
    assert format_.name_length or hashlib.sha256(data).digest() == plain
