"""Pages of a PDF: the same bytes each time, any name printable."""

import io

import numpy as np
import pypdf
import pytest

from stitchpath.preview.letters import fitted
from stitchpath.preview.pdf import Ink, Pages, text_width


def page_of(words: str) -> bytes:
    pages = Pages(words)
    pages.begin(210, 297)
    pages.text((10, 10), words, 4)
    pages.lines([np.array([[10.0, 20.0], [110.0, 20.0]])], Ink())
    return pages.finished()


@pytest.mark.parametrize(
    "name",
    ["Gull Rock", "Crème “gull” (no. 7) \\ )", "🧵🪡", "שלום עולם", "Łódź №7", "漢字", "é"],
)
def test_any_name_can_be_written_and_read_again(name: str) -> None:
    reader = pypdf.PdfReader(io.BytesIO(page_of(name)))
    assert reader.pages[0].extract_text().strip()
    assert reader.metadata is not None
    assert reader.metadata.title == name


def test_same_drawing_has_the_same_bytes() -> None:
    assert page_of("Heron runner") == page_of("Heron runner")
    assert page_of("Чайка 🧵") == page_of("Чайка 🧵")


def test_long_text_is_cut_to_its_room() -> None:
    pages = Pages("x")
    pages.begin(210, 297)
    pages.text((10, 10), fitted("a name that goes on and on", 4, 20), 4)
    read = pypdf.PdfReader(io.BytesIO(pages.finished())).pages[0].extract_text().strip()
    assert read.endswith("...")
    assert text_width(read, 4) <= 20


@pytest.mark.parametrize("height", [297, 420])
def test_what_is_drawn_again_is_the_same_as_drawn_anew(height: float) -> None:
    def drawn(*, again: bool) -> bytes:
        pages = Pages("Gull Rock")
        for number in ("1", "2"):
            pages.begin(210, 297 if number == "1" else height)

            def draw() -> None:
                pages.text((10, 20), "the same", 4)
                pages.lines([np.array([[10.0, 20.0], [110.0, 20.0]])], Ink(dash=(2.0, 1.0)))

            pages.text((10, 10), number, 4, bold=True)
            if again:
                pages.again("same", draw)
            else:
                draw()
            pages.lines([np.array([[10.0, 30.0], [110.0, 30.0]])], Ink(grey=0.5))
        return pages.finished()

    assert drawn(again=True) == drawn(again=False)


def test_nothing_is_drawn_off_a_page() -> None:
    with pytest.raises(ValueError, match="a page is begun"):
        Pages("x").text((0, 0), "x", 4)
