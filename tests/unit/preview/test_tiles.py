"""Sheets: they cover a drawing, overlap, and hold their part at true scale."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.catalog.papers import PAPERS
from stitchpath.preview.tiles import OVERLAP_MM, Page, tile, upright

extents = st.floats(20, 1500)
papers = st.sampled_from(sorted(PAPERS))


@given(width=extents, height=extents, name=papers)
def test_every_part_fits_its_sheet_and_neighbours_share_the_overlap(
    width: float, height: float, name: str
) -> None:
    page, tiles = tile((-width / 2, 7.0, width / 2, 7.0 + height), PAPERS[name])
    x0, y0, x1, y1 = page.room
    places = {(one.column, one.row): one.box for one in tiles}
    for (column, row), box in places.items():
        assert box[2] - box[0] <= x1 - x0 + 1e-6
        assert box[3] - box[1] <= y1 - y0 + 1e-6
        if (right := places.get((column + 1, row))) is not None:
            assert box[2] - right[0] == pytest.approx(OVERLAP_MM)
        if (below := places.get((column, row + 1))) is not None:
            assert box[3] - below[1] == pytest.approx(OVERLAP_MM)


@given(width=extents, height=extents, name=papers)
def test_sheets_cover_the_drawing_and_no_more(width: float, height: float, name: str) -> None:
    _, tiles = tile((0, 0, width, height), PAPERS[name])
    boxes = [one.box for one in tiles]
    assert min(box[0] for box in boxes) == 0
    assert min(box[1] for box in boxes) == 0
    assert max(box[2] for box in boxes) == pytest.approx(width)
    assert max(box[3] for box in boxes) == pytest.approx(height)


@pytest.mark.parametrize(
    ("size", "turned", "sheets"),
    [
        ((180, 250), False, 1),
        ((270, 160), True, 1),
        ((208, 308), True, 2),
        ((408, 608), True, 8),
    ],
)
def test_sheets_lie_as_takes_fewer(
    size: tuple[float, float], turned: bool, sheets: int
) -> None:
    """A4 has 190 x 256 mm between margins, head and foot; turned 277 x 169 mm (arithmetic).

    408 x 608 mm: upright ceil(398 / 180) x ceil(598 / 246) = 3 x 3 sheets, turned
    ceil(398 / 267) x ceil(598 / 159) = 2 x 4.
    """
    page, tiles = tile((0, 0, *size), PAPERS["a4"])
    assert len(tiles) == sheets
    assert (page.width > page.height) is turned


def test_sheet_lies_upright_as_it_is_named() -> None:
    assert upright(PAPERS["letter"]) == Page(width=215.9, height=279.4)
