"""A stitch file of any kind is read; its content is believed rather than its name."""

import numpy as np
import pytest

from stitchpath.errors import FormatError
from stitchpath.machine import FileStitches, StitchFile, read_stitch_file
from stitchpath.machine.content import format_by_content, format_by_name
from stitchpath.machine.decode import MOST_BYTES
from stitchpath.machine.library_read import NAMES, decode_by_library
from tests.support.kinds_of_files import KINDS, SQUARE, ZIGZAG, file_of_kind

every_kind = pytest.mark.parametrize("kind", KINDS)


def _by_library(data: bytes, name: str) -> FileStitches:
    return decode_by_library(data, name=name)


def _read(data: bytes, suffix: str) -> StitchFile:
    return read_stitch_file(data, suffix, by_library=_by_library)


@every_kind
def test_every_kind_is_read_and_found_whole(kind: str) -> None:
    file = _read(file_of_kind(kind), f".{kind.upper()}")
    assert file.format == kind
    # Some writers sew once more on the spot where a jump ends.
    points = file.read.needle_points_units
    moved = np.concatenate([[True], (np.diff(points, axis=0) != 0).any(axis=1)])
    assert points[moved].tolist() == [list(place) for place in ZIGZAG + SQUARE]
    assert file.read.colour_blocks == 2
    assert file.sound.whole is True
    assert file.sound.faults == ()


@pytest.mark.parametrize("kind", ["dst", "pes", "pec", "jef", "vp3", "xxx", "tbf"])
def test_content_is_believed_rather_than_a_wrong_name(kind: str) -> None:
    data = file_of_kind(kind)
    named = _read(data, ".exp")
    assert named.format == kind
    assert [fault.text for fault in named.sound.faults] == [
        f"it is a {kind} file by its content, whatever its name says"
    ]
    assert _read(data, ".download").format == kind
    assert _read(data, "").sound.faults == ()


def test_an_old_pec_block_may_be_called_pes() -> None:
    file = _read(file_of_kind("pec"), ".pes")
    assert (file.format, file.sound.faults) == ("pes", ())


def test_what_begins_as_dst_may_be_dsb_by_its_name() -> None:
    data = file_of_kind("dst")
    assert format_by_content(data) == "dst"
    with pytest.raises(FormatError, match="read as dsb, it holds no stitches"):
        _read(data[:512], ".dsb")


def test_nothing_to_tell_the_kind_by_is_refused() -> None:
    with pytest.raises(FormatError, match="neither its name nor its content"):
        _read(b"dear diary, today I quilted", ".txt")


@pytest.mark.parametrize("kind", ["dst", "pes", "pec", "vp3"])
def test_a_name_without_the_mark_that_goes_with_it_is_refused(kind: str) -> None:
    with pytest.raises(FormatError, match=f"it does not begin as a {kind} file does"):
        _read(b"\x00" * 600, f".{kind}")


def test_a_file_beyond_the_size_is_refused_before_it_is_read() -> None:
    with pytest.raises(FormatError, match=f"the limit is {MOST_BYTES:,} bytes"):
        _read(b"\x80" * (MOST_BYTES + 1), ".u01")


def test_endings_of_one_format_are_read_alike() -> None:
    assert {ending for ending, name in NAMES.items() if name == "u01"} == {"u00", "u01", "u02"}
    assert format_by_name(".U02") == "u01"
    assert format_by_name("") is None


@pytest.mark.parametrize("place", ["inf", "nan", "1e300"])
def test_places_that_are_no_numbers_are_refused(place: str) -> None:
    text = f'"*","0","STITCH","{place}","0"\n'
    with pytest.raises(FormatError, match="ValueError in its reader"):
        _read(text.encode(), ".csv")


def test_text_formats_are_read_as_utf_8_and_nothing_else() -> None:
    with pytest.raises(FormatError, match="UnicodeDecodeError in its reader"):
        _read(b"\xff\xfe\x00", ".json")
