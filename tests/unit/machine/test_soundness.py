"""Files that are cut short, or whose header says what is not so."""

import numpy as np
import pytest

from stitchpath.machine.dst_decode import decode_dst, records_of_dst
from stitchpath.machine.exp import decode_exp, pairs_of_exp
from stitchpath.machine.library_read import decode_by_library
from stitchpath.machine.soundness import Soundness, soundness
from tests.support.kinds_of_files import file_of_kind


def _sound(data: bytes, name: str) -> Soundness:
    return soundness(data, name, decode_by_library(data, name=name))


@pytest.mark.parametrize("kind", ["dst", "pes", "pec", "jef", "u01", "tbf"])
@pytest.mark.parametrize("part", [0.5, 0.9, 1.0])
def test_a_file_without_its_end_is_told(kind: str, part: float) -> None:
    data = file_of_kind(kind)
    stitches_at = {"dst": 512, "pes": 700, "pec": 540, "jef": 132, "u01": 256, "tbf": 1536}[
        kind
    ]
    end = min(stitches_at + int(part * (len(data) - stitches_at)), len(data) - 2)
    sound = _sound(data[:end], kind)
    assert sound.whole is False
    assert any(fault.cut_short for fault in sound.faults)


def test_exp_tells_only_a_torn_stitch_and_an_unknown_mark() -> None:
    data = file_of_kind("exp")
    assert _sound(data[:-1], "exp").whole is False
    assert _sound(data[:-2], "exp").whole is True  # nothing in the format says that one is gone
    (fault,) = _sound(b"\x05\x05\x80\x33\x00\x00\x05\x05", "exp").faults
    assert fault.text == (
        "byte 3 is a mark that exp does not have; what comes after it was not read"
    )
    assert not fault.cut_short
    assert pairs_of_exp(b"\x05\x05\x80") == (1, False)
    assert pairs_of_exp(b"\x05\x05\x80\x04") == (1, False)


def test_dst_records_are_held_against_the_headers_count() -> None:
    data = file_of_kind("dst")
    records, ended = records_of_dst(data)
    assert ended
    assert records == (len(data) - 512) // 3
    end = bytes.fromhex("0000f3")
    short = data[: 512 + 30] + end
    assert [fault.text for fault in _sound(short, "dst").faults] == [
        "its header states 50 records, and there are 11",
        "its header states a size of 39.0 x 32.5 mm, and the stitches take 9.0 x 1.0 mm",
    ]


def test_a_size_that_is_not_that_of_the_stitches_is_told_but_not_as_cut_short() -> None:
    data = file_of_kind("dst").replace(b"+X:  390", b"+X: 1390")
    sound = _sound(data, "dst")
    assert sound.whole is True
    assert [fault.text for fault in sound.faults] == [
        "its header states a size of 139.0 x 32.5 mm, and the stitches take 39.0 x 32.5 mm"
    ]


def test_a_dst_header_without_numbers_states_nothing() -> None:
    data = file_of_kind("dst")
    blank = b"LA:" + b" " * 509 + data[512:]
    assert _sound(blank, "dst") == Soundness(whole=True)


def test_the_small_pictures_of_a_pes_file_belong_to_it() -> None:
    data = file_of_kind("pes")
    assert [fault.text for fault in _sound(data[:-1], "pes").faults] == [
        "its small pictures are missing"
    ]


def test_a_pes_file_whose_colours_are_none_has_no_small_pictures() -> None:
    """The number of colours stands less one: 255 is none, and 254 are 255 colours."""
    data = bytearray(file_of_kind("pec"))
    del data[8 + 512 + int.from_bytes(data[8 + 514 : 8 + 517], "little") :]
    read = decode_by_library(file_of_kind("pec"), name="pec")
    for colours, texts in ((0xFE, ["its small pictures are missing"]), (0xFF, [])):
        data[8 + 48] = colours
        faults = soundness(bytes(data), "pec", read).faults
        assert [fault.text for fault in faults] == texts


def test_a_pes_block_that_does_not_end_with_its_mark_is_told() -> None:
    data = bytearray(file_of_kind("pec"))
    end = 8 + 512 + int.from_bytes(data[8 + 514 : 8 + 517], "little")
    data[end - 2 : end] = b"\x01\x01"
    assert "there is no end mark" in [fault.text for fault in _sound(bytes(data), "pec").faults]


def test_a_vp3_length_beyond_the_files_end_is_told() -> None:
    data = file_of_kind("vp3")
    read = decode_by_library(data, name="vp3")
    assert soundness(data, "vp3", read).whole is True
    (fault, *_) = soundness(data[:-5], "vp3", read).faults
    assert fault.cut_short
    assert fault.text.endswith("bytes of its stitches are missing")


def test_an_xxx_end_beyond_the_files_end_is_told() -> None:
    data = file_of_kind("xxx")
    read = decode_by_library(data, name="xxx")
    assert soundness(data[:300], "xxx", read).whole is False


def test_fewer_hus_stitches_than_stated_are_told() -> None:
    read = decode_exp(bytes([5, 5] * 10))
    stated = b"\x5b\xaf\xc8\x00" + (500).to_bytes(4, "little")
    assert soundness(stated, "hus", read).whole is False


def test_formats_with_nothing_to_tell_by_say_so() -> None:
    read = decode_exp(bytes([5, 5] * 10))
    assert soundness(b"", "sew", read) == Soundness(whole=None)


def test_reading_and_counting_of_records_agree() -> None:
    data = file_of_kind("dst")
    for cut in range(512, len(data), 7):
        records, ended = records_of_dst(data[:cut])
        assert not ended
        assert records == (cut - 512) // 3
        assert len(np.atleast_1d(decode_dst(data[:cut]).op)) <= 2 * records + 1
