"""Whatever is in an SVG file, reading it gives strokes or one clear line, and soon."""

from pathlib import Path
from typing import Final

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.project import read_drawing
from tests.support.hostile import read_hostile_drawing
from tests.support.svg_files import svg

GALLERY: Final = Path(__file__).parents[2] / "designs" / "gallery"
EVERYTHING: Final = svg(
    """
    <style>.a { fill: none } #b, rect { stroke: red; display: inline }</style>
    <defs><symbol id="s" viewBox="0 0 9 9"><circle cx="4" cy="4" r="4"/></symbol></defs>
    <g transform="translate(10,20) rotate(30) skewX(5) scale(2,-1)" font-size="12">
      <path class="a" d="M0,0h5v5l-1-1c1,2,3,4,5,6s1-1,2-2q3,4,5,6t1-1a9,4 30 0 1 5,6z"/>
      <path d="M0,0A3,3,0,1,0,1,1"/>
      <rect id="b" x="1" y="2" width="30%" height="4mm" rx="1" ry="2"/>
      <ellipse cx="1em" cy="2pt" rx="3" ry="4"/><line x2="9"/>
      <polyline points="0,0 5,5 9,0"/><polygon points="0,0 5,5 9,0" style="fill:none"/>
    </g>
    <svg x="5" width="40" height="30" viewBox="0 0 8 8" preserveAspectRatio="xMinYMax slice">
      <use href="#s" x="2" width="5" height="5"/><use xlink:href="#b"/>
    </svg>
    <text>x</text><image/>
    """,
    'width="80mm" height="60mm" viewBox="0 0 400 300"',
)
SEEDS: Final = [EVERYTHING, *(path.read_bytes() for path in sorted(GALLERY.glob("*.svg")))]
TOKENS: Final = st.sampled_from([
    b"", b"<g>", b"</g>", b"<", b">", b'"', b"&", b"&#0;", b"<!--", b"<![CDATA[", b"<?x?>",
    b"<!DOCTYPE svg>", b"nan", b"inf", b"-", b"1e9", b"1e400", b"-1e-400", b"9" * 400, b"%",
    b"em", b"mm", b"furlong", b"M", b"Z", b"A", b"a0,0,0,0,0,0,0", b"C", b"t", b",", b".",
    b"..5", b"#s", b"#b", b"none", b"hidden", b"scale(0)", b"matrix(0 0 0 0 0 0)",
    b"rotate(1,2)", b"viewBox", b'<use href="#b"/>', b'<use href="#s"/>', b"display:none",
    b"\x00", b"\xff", b"\n", b"}{",
])  # fmt: skip


def ten_times() -> int:
    """Return ten times the examples of the profile: reading takes a millisecond or two."""
    return 10 * settings().max_examples


@settings(max_examples=ten_times(), deadline=None)
@given(
    st.sampled_from(SEEDS),
    st.lists(st.tuples(st.integers(0, 2000), st.integers(0, 12), TOKENS), max_size=4),
)
def test_mutated_drawing_is_read_or_refused(
    seed: bytes, cuts: list[tuple[int, int, bytes]]
) -> None:
    data = seed
    for place, length, new in cuts:
        start = place % len(data)
        data = data[:start] + new + data[start + length :]
    read_hostile_drawing(data)


@settings(deadline=None)
@given(st.text("MmLlHhVvCcSsQqTtAaZz0123456789.,- eE\n+", max_size=60))
def test_any_path_data_is_read_or_refused(data: str) -> None:
    read_hostile_drawing(svg(f'<path d="M1,2{data}"/>'))


@settings(deadline=None)
@given(
    st.sampled_from(["x", "y", "width", "height", "rx", "transform", "style", "class"]),
    st.text(st.characters(blacklist_characters='<&"', max_codepoint=0x2FF), max_size=30),
)
def test_any_attribute_is_read_or_refused(name: str, value: str) -> None:
    value = "".join(c for c in value if c.isprintable())
    attributes = {"width": "9", "height": "9"} | {name: value}
    told = " ".join(f'{key}="{text}"' for key, text in attributes.items())
    read_hostile_drawing(svg(f"<rect {told}/>"))


@settings(deadline=None)
@given(st.binary(max_size=300))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    read_hostile_drawing(data)


numbers = st.floats(-500, 500).map(lambda number: round(number, 3))


@settings(deadline=None)
@given(
    st.lists(numbers, min_size=6, max_size=6),
    st.lists(st.floats(-2, 2).map(lambda number: round(number, 3)), min_size=4, max_size=4),
)
def test_transformed_curve_is_the_curve_transformed(
    points: list[float], matrix: list[float]
) -> None:
    """A Bezier curve is transformed by transforming its control points (geometry)."""
    a, b, c, d = matrix
    data = "M0,0C" + ",".join(map(str, points))
    turned = np.reshape(points, (3, 2)) @ np.array([[a, b], [c, d]])
    direct = "M0,0C" + ",".join(map(repr, turned.ravel().tolist()))
    drawn = []
    for body in (
        f'<path transform="matrix({a} {b} {c} {d} 0 0)" d="{data}"/>',
        f'<path d="{direct}"/>',
    ):
        try:
            drawn.append(read_drawing(svg(body), "one.svg").strokes[0])
        except ValueError:
            drawn.append(np.zeros((1, 2)))  # all in one point
    if len(drawn[0]) == len(drawn[1]):
        np.testing.assert_allclose(drawn[0], drawn[1], atol=1e-6)
    else:  # one chord more or less, where the count is on a limit
        np.testing.assert_allclose(drawn[0][[0, -1]], drawn[1][[0, -1]], atol=1e-6)
        assert abs(len(drawn[0]) - len(drawn[1])) <= 1
