"""PDF and PNG measured by other libraries."""

import io

import numpy as np
import pdfplumber
import pytest
from PIL import Image

from stitchpath.preview import draw_hooping, draw_stage
from stitchpath.preview.print_files import picture_png, pictures_pdf
from stitchpath.preview.svg_parts import svg_parts
from tests.support.booklets import HOSTILE
from tests.support.plans import FIELD, small_plan

PLAN = small_plan()
SEAM = PLAN.stages[1]
POINT_MM = 25.4 / 72


def _svg() -> str:
    return draw_hooping(PLAN, SEAM, SEAM.hoopings[0])


def test_page_is_as_large_as_the_picture_and_the_field_on_it_is_true() -> None:
    data = pictures_pdf([_svg()], title="x")
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        (page,) = pdf.pages
        _, _, width, height = svg_parts(_svg()).box
        assert float(page.width) * POINT_MM == pytest.approx(width, abs=0.01)
        assert float(page.height) * POINT_MM == pytest.approx(height, abs=0.01)
        outlines = [*page.rects, *page.curves]
        sizes = [(one["width"] * POINT_MM, one["height"] * POINT_MM) for one in outlines]
    assert any(size == pytest.approx(FIELD, abs=0.05) for size in sizes)


def test_words_of_the_picture_are_words_of_the_page() -> None:
    with pdfplumber.open(io.BytesIO(pictures_pdf([_svg()], title="x"))) as pdf:
        text = pdf.pages[0].extract_text()
    assert "Larch Lane picnic rug" in text
    assert "2 in = 50.8 mm" in text


def test_a_name_in_any_letters_is_text_of_the_page_and_its_title() -> None:
    svg = draw_stage(small_plan(HOSTILE), SEAM)
    with pdfplumber.open(io.BytesIO(pictures_pdf([svg], title=HOSTILE))) as pdf:
        text = pdf.pages[0].extract_text()
        assert pdf.metadata["Title"] == HOSTILE
    assert "<script>alert('1')</script> & \"q\"" in text
    assert "[spool of thread]" in text
    assert "םולש" in text  # in the order in which it is seen


def test_same_pictures_give_the_same_bytes() -> None:
    assert pictures_pdf([_svg()], title="x") == pictures_pdf([_svg()], title="x")


def test_picture_longer_than_a_page_can_be_is_refused() -> None:
    # Source: ISO 32000-1:2008, annex C.2: 14,400 units of 1/72 in are 5,080 mm.
    svg = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {} 10"></svg>'
    assert pictures_pdf([svg.format(5080)], title="x").startswith(b"%PDF")
    with pytest.raises(ValueError, match=r"at most 5080 mm \(200 in\)"):
        pictures_pdf([svg.format(5081)], title="x")


def test_png_has_the_thread_where_the_plan_has_it() -> None:
    svg, hooping = _svg(), SEAM.hoopings[0]
    image = np.asarray(Image.open(io.BytesIO(picture_png(svg))).convert("RGB")).astype(int)
    x0, y0, width, height = svg_parts(svg).box
    scale = 2400 / max(width, height)
    points = hooping.hooping.to_field(hooping.stitches.needle_points)
    # half way down the left side of the pocket, far from marks and arrows
    middle = points[(points[:, 0] < -60) & (abs(points[:, 1] + 20) < 8)].mean(axis=0)
    column, row = np.floor((middle - (x0, y0)) * scale).astype(int)
    thread = [int(SEAM.thread.top[at : at + 2], 16) for at in (1, 3, 5)]
    near = image[row - 3 : row + 4, column - 3 : column + 4].reshape(-1, 3)
    assert abs(near - thread).sum(axis=1).min() < 40
