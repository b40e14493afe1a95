"""Each format has its codec."""

from stitchpath.catalog.formats import FORMATS
from stitchpath.machine.codecs import CODECS


def test_every_format_is_written_and_read_and_no_other() -> None:
    assert list(CODECS) == list(FORMATS)
