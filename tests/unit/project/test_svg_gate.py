"""Files that must be refused, each with a clear word, and soon."""

import gzip

import pytest

from stitchpath.project.svg_drawing import read_drawing
from tests.support.svg_files import svg

LAUGHS = (
    '<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'
    '<svg xmlns="http://www.w3.org/2000/svg"><path d="&b;"/></svg>'
)
OUTSIDE = '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]><svg><path d="&x;"/></svg>'
DOUBLING = [
    f'<g id="a{n}"><use href="#a{n + 1}"/><use href="#a{n + 1}"/></g>' for n in range(30)
]


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "is not XML: line 1, column 1"),
        (b"<svg", "is not XML"),
        (b"\xff\xfe\x00", "is not XML"),
        (b"<html/>", "is not an SVG drawing"),
        (b'<?xml version="1.0" encoding="klingon"?><svg/>', "encoding"),
        (LAUGHS.encode(), "document type"),
        (OUTSIDE.encode(), "document type"),
        (b'<!DOCTYPE svg SYSTEM "http://example.com/svg.dtd"><svg/>', "document type"),
        (svg("&unknown;"), "is not XML"),
        (gzip.compress(svg('<path d="M0,0H5"/>'), mtime=0), "compressed"),
        (b" " * 1_000_001, "more than 1,000,000 bytes"),
        (svg("<g>" * 61 + "</g>" * 61), "more than 60 elements within each other"),
        (svg("<g/>" * 20_000), "more than 20,000 elements"),
        (svg('<g id="a"><use href="#a"/></g>'), "draws `a` within itself"),
        (svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'), "within itself"),
        (svg("".join(DOUBLING) + '<path id="a30" d="M0,0H5"/>'), "more than 60 elements"),
        (svg("".join(DOUBLING[:12])), "more than 20,000 elements"),
        (svg(f'<path d="M0,0{"h1" * 60_000}"/>'), "more than 40,000 numbers"),
        (
            svg('<path id="a" d="M0,0' + "h1" * 9000 + '"/>' + '<use href="#a"/>' * 9),
            "more than 20,000 curves",
        ),
        (svg('<circle r="20000"/>' * 200), "too many points"),
        (svg(""), "has no strokes"),
        (svg("<text>moth</text>"), "has no strokes"),
        (svg('<path d="M0,0z"/>'), "has no strokes"),
        (svg('<path d="M0,0H5"/>', 'width="0"'), "has no strokes"),
        (svg('<path d="M0,0L nan,5"/>'), "path data in the file cannot be read"),
        (svg('<path d="M0,0L5"/>'), "path data in the file cannot be read"),
        (svg('<path d="H5"/>'), "does not begin with `M`"),
        (svg('<path d="M0,0h5;h3"/>'), "cannot be read near `M0,0h5;h3`"),
        (svg('<path d="M0,0L1e999,0"/>'), "further than 100,000 mm"),
        (svg('<path d="M0,0L1e6,0"/>'), "further than 100,000 mm"),
        (svg('<path d="M0,0A1e300,1e300,0,0,1,1e200,5"/>'), "cannot be read|further"),
        (svg('<g transform="scale(1e99)"><path d="M0,0H5"/></g>'), "further than"),
        (svg('<g transform="scale(nan)"><path d="M0,0H5"/></g>'), "cannot be read"),
        (svg('<g transform="turn(5)"><path d="M0,0H5"/></g>'), "transform in the file cannot"),
        (svg('<g transform="scale(1,2,3)"><path d="M0,0H5"/></g>'), "transform in the file"),
        (svg('<line x2="5 furlongs"/>'), "a size in the file cannot be read: `5 furlongs`"),
        (svg(f'<line x2="{"1" * 200}"/>'), "a size in the file cannot be read"),
        (svg('<g transform="rotate(1e999)"><path d="M0,0H5"/></g>'), "out of range"),
        (svg('<line x2="1e999"/>'), "cannot be read|further"),
        (svg('<polyline points="1,2,3"/>'), "path data in the file cannot be read"),
        (svg('<path d="M0,0H5"/>', 'viewBox="0 0 a b"'), "a list of numbers in the file"),
    ],
)
def test_hostile_file_is_refused_with_a_clear_word(data: bytes, why: str) -> None:
    with pytest.raises(ValueError, match=why) as caught:
        read_drawing(data, "one.svg")
    assert len(str(caught.value)) < 120


@pytest.mark.parametrize(
    "body",
    [
        "<style>" + "a" * 900_000 + "</style>",
        "<style>" + "/*" * 400_000 + "</style>",
        f'<g transform="{" " * 900_000}"/>',
        f'<g class="{"a " * 400_000}"/>',
        "<!--" + "x" * 900_000 + "-->",
    ],
)
def test_long_text_of_no_use_takes_no_time(body: str) -> None:
    """Each would take minutes if it were looked through again from every place in it."""
    drawing = read_drawing(
        svg(body.replace(" " * 900_000, "") + '<path d="M0,0H5"/>'), "one.svg"
    )
    assert len(drawing.strokes) == 1
