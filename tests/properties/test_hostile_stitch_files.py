"""Whatever is in a stitch file, reading it gives sound figures or one clear line."""

from typing import Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.cli.reading import StitchReader
from stitchpath.machine.library_read import NAMES
from tests.support.hostile import read_hostile_stitches
from tests.support.kinds_of_files import KINDS, TEXT_KINDS, file_of_kind

NIGHT: Final = 5000
OTHERS: Final = sorted(set(NAMES.values()) - {*KINDS, *TEXT_KINDS})
SEEDS: Final = [file_of_kind(kind) for kind in (*KINDS, *TEXT_KINDS)]
BURSTS: Final = st.one_of(
    st.binary(max_size=8),
    st.sampled_from([
        b"\x00" * 40, b"\xff" * 40, b"\x80" * 40, b"\x7f" * 9, b"\xff\x00", b"\xfe\xb0\x01",
        b"\x80\x10", b"\x80\x01\x80\x01", b"\xf3" * 6, b"#PES0001", b"%vsm%\x00", b"LA:",
        b"\x7d\xff\x7f\xff\x7f" * 5, b"ST:9999999\r", b"+X:99999\r", b"*,STITCH,1,1\n",
        b"G01 X9e9 Y1\n", b'{"stitches": [[1, 2, "STITCH"]]', b'"*","0","STITCH","1","1"\n',
    ]),
)  # fmt: skip


READER: Final = StitchReader(seconds=20, most_memory=512 * 2**20)
"""As the commands read: with a limit of time and memory. It ends with the tests."""


def is_read_or_refused(data: bytes, suffix: str) -> None:
    """Fail on anything but sound figures or a line that says why there are none."""
    read_hostile_stitches(lambda: READER.read_bytes(data, suffix))


def damaged(seed: bytes, cuts: list[tuple[int, int, bytes]], end: int) -> bytes:
    """Return bytes with some replaced, and perhaps without their end."""
    data = seed
    for place, length, new in cuts:
        start = place % (len(data) + 1)
        data = data[:start] + new + data[start + length :]
    return data[: len(data) - end] if end < len(data) else data


CUTS: Final = st.lists(
    st.tuples(st.integers(0, 3000), st.integers(0, 12), BURSTS), min_size=1, max_size=5
)


def a_few() -> int:
    """Return fewer examples by day: there are many readers."""
    asked = settings().max_examples
    return asked if asked >= NIGHT else asked // 5


@pytest.mark.parametrize("kind", [*KINDS, *TEXT_KINDS])
@settings(max_examples=a_few(), deadline=None)
@given(cuts=CUTS, end=st.integers(0, 400))
def test_damaged_file_of_a_kind_is_read_or_refused(
    kind: str, cuts: list[tuple[int, int, bytes]], end: int
) -> None:
    is_read_or_refused(damaged(file_of_kind(kind), cuts, end), f".{kind}")


@pytest.mark.parametrize("name", OTHERS)
@settings(max_examples=a_few(), deadline=None)
@given(
    seed=st.sampled_from(SEEDS) | st.binary(max_size=900), cuts=CUTS, end=st.integers(0, 400)
)
def test_anything_is_read_or_refused_by_every_other_reader(
    name: str, seed: bytes, cuts: list[tuple[int, int, bytes]], end: int
) -> None:
    data = damaged(seed, cuts, end)
    with_header = data if name not in {"dsb", "dsz"} else b"LA:" + data
    is_read_or_refused(with_header, f".{name}")


@settings(deadline=None)
@given(st.binary(max_size=600), st.sampled_from(["", ".txt", *(f".{name}" for name in NAMES)]))
def test_any_bytes_by_any_name_are_read_or_refused(data: bytes, suffix: str) -> None:
    is_read_or_refused(data, suffix)
