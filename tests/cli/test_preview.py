"""The kinds of files that `preview` writes, each read back by something else."""

import io

import pypdf
import pytest
from PIL import Image

from tests.support.command_line import Shell
from tests.support.html_reader import read_html

_HOOPINGS = 2
"""Of the corners in `rug.toml`."""


def _preview(shell: Shell, line: str, name: str) -> bytes:
    ran = shell.run(f"stitchpath preview rug.toml --out {name} {line}")
    assert ran.code == 0, ran.err
    return (shell.folder / name).read_bytes()


def test_png_shows_what_the_svg_shows(shell: Shell) -> None:
    image = Image.open(io.BytesIO(_preview(shell, "--hooping 1", "rug.png")))
    assert image.format == "PNG"
    assert max(image.size) == pytest.approx(2400, abs=1)
    colours = image.convert("RGB").getcolors(maxcolors=1 << 24)
    assert colours is not None
    assert len(colours) > 10


def test_pdf_of_nothing_named_holds_every_picture(shell: Shell) -> None:
    pages = pypdf.PdfReader(io.BytesIO(_preview(shell, "", "rug.pdf"))).pages
    assert len(pages) == 1 + _HOOPINGS
    assert "stage seam, on the quilt" in pages[0].extract_text()
    for number in (1, 2):
        assert f"hooping {number} of {_HOOPINGS}" in pages[number].extract_text()


@pytest.mark.parametrize("line", ["--hooping 2", "--design", "--stage seam"])
def test_pdf_of_something_named_is_one_page(shell: Shell, line: str) -> None:
    data = _preview(shell, line, "rug.pdf")
    assert len(pypdf.PdfReader(io.BytesIO(data)).pages) == 1


def test_html_is_the_booklet(shell: Shell) -> None:
    elements = read_html(_preview(shell, "", "rug.HTML").decode())
    assert sum(element.name == "article" for element in elements) == _HOOPINGS
