"""What the library reads, in columns."""

import pytest
from hypothesis import given

from stitchpath.catalog.formats import FORMATS
from stitchpath.machine import stitch_file
from stitchpath.machine.library_read import _LightPattern, decode_by_library
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Stitches
from stitchpath.model.thread import ThreadPair
from tests.support.library_files import read_by_library, rows_of
from tests.support.stitch_sets import sewn_hoopings

_SETTINGS = {"jef": {"trims": True, "trim_distance": None}}


@pytest.mark.parametrize("name", ["pes", "jef", "vp3", "u01", "xxx"])
@given(sewn=sewn_hoopings())
def test_light_pattern_reads_what_the_librarys_own_reads(
    name: str, sewn: tuple[Stitches, Hooping]
) -> None:
    stitches, hooping = sewn
    data = stitch_file(
        stitches, hooping, format=FORMATS[name], name="light", thread=ThreadPair()
    )
    read = decode_by_library(data, name=name)
    assert rows_of(read) == read_by_library(name, data, _SETTINGS.get(name))


def test_light_pattern_refuses_to_insert() -> None:
    with pytest.raises(ValueError, match="stitches are appended only"):
        _LightPattern().stitch(1, 1, 0)  # type: ignore[arg-type]
