import numpy as np
import pytest

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import FLATNESS_MM
from stitchpath.project.svg_drawing import read_drawing
from tests.support.svg_files import PIXEL, box, furthest, svg


def strokes(body: str, attributes: str = "") -> tuple[Points, ...]:
    return read_drawing(svg(body, attributes), "one.svg").strokes


def in_pixels(points: Points) -> list[list[float]]:
    pixels: list[list[float]] = (points / PIXEL).round(6).tolist()
    return pixels


def ignored(body: str) -> tuple[str, ...]:
    return read_drawing(svg(body + '<path d="M0,0H9"/>'), "one.svg").ignored


@pytest.mark.parametrize(
    "size", ["1in", "2.54cm", "25.4mm", "101.6Q", "72pt", "6pc", "96px", "96"]
)
def test_an_inch_is_25_4_mm_in_every_unit(size: str) -> None:
    """Source: W3C, CSS Values and Units Module Level 3, "absolute lengths".

    1in = 2.54cm = 96px, 1cm = 96px/2.54, 1mm = 1cm/10, 1Q = 1cm/40, 1pt = 1in/72, 1pc = 1in/6.
    """
    (line,) = strokes(f'<line x2="{size}"/>')
    assert np.ptp(line, axis=0) == pytest.approx([25.4, 0])


UNITS = """
  <g fill="blue" stroke="red" font-size="150">
    <g transform="translate(400,0)">
      <rect x="0" y="400" width="4in" height="2in"/>
      <rect x="0" y="750" width="384" height="192"/>
      <g transform="scale(2)"><rect x="0" y="600" width="4in" height="2in"/></g>
    </g>
    <g transform="translate(1600,0)">
      <rect x="0" y="400" width="2.5em" height="1.25em"/>
      <rect x="0" y="750" width="375" height="187.5"/>
      <g transform="scale(2)"><rect x="0" y="600" width="2.5em" height="1.25em"/></g>
    </g>
    <g transform="translate(2800,0)">
      <rect x="0" y="400" width="10%" height="10%"/>
      <rect x="0" y="750" width="400" height="200"/>
      <g transform="scale(2)"><rect x="0" y="600" width="10%" height="10%"/></g>
    </g>
  </g>"""


def test_units_are_those_of_the_recommendations_own_example() -> None:
    """Source: W3C, SVG 2, "Coordinate systems, transformations and units", figure "Units".

    In each of its three columns the first rectangle has the size of the second, which is in
    user units, and the third twice that. Its 400px by 200px show 4000 by 2000.
    """
    boxes = [
        box(points)
        for points in strokes(UNITS, 'width="400px" height="200px" viewBox="0 0 4000 2000"')
    ]
    for left, width, height, column in (
        (400, 384, 192, boxes[:3]),
        (1600, 375, 187.5, boxes[3:6]),
        (2800, 400, 200, boxes[6:]),
    ):
        expected = [
            [left, 400, width, height],
            [left, 750, width, height],
            [left, 1200, 2 * width, 2 * height],
        ]
        assert column == [pytest.approx([n / 10 for n in one]) for one in expected]


@pytest.mark.parametrize(
    ("align", "size", "corner"),
    [
        ("xMinYMin meet", (50, 30), (0, 0, 0.75)),
        ("xMidYMid meet", (50, 30), (13.75, 0, 0.75)),
        ("xMaxYMax meet", (50, 30), (27.5, 0, 0.75)),
        ("xMinYMin meet", (30, 60), (0, 0, 1)),
        ("xMidYMid meet", (30, 60), (0, 10, 1)),
        ("xMaxYMax meet", (30, 60), (0, 20, 1)),
        ("xMinYMin slice", (30, 60), (0, 0, 1.5)),
        ("xMidYMid slice", (30, 60), (-7.5, 0, 1.5)),
        ("xMaxYMax slice", (30, 60), (-15, 0, 1.5)),
        ("xMidYMid slice", (50, 30), (0, -18.333333, 1.666667)),
        ("xMaxYMax slice", (50, 30), (0, -36.666667, 1.666667)),
        ("", (50, 30), (13.75, 0, 0.75)),
    ],
)
def test_nested_drawing_lies_in_its_viewport(
    align: str, size: tuple[int, int], corner: tuple[float, float, float]
) -> None:
    """Source: W3C, SVG 2, the same chapter, figure "PreserveAspectRatio".

    A box of 30 by 40 in viewports of 50 by 30 and of 30 by 60; the numbers are worked by hand
    from "computing the equivalent transform of an SVG viewport".
    """
    inner = (
        f'<svg preserveAspectRatio="{align}" viewBox="0 0 30 40" width="{size[0]}"'
        f' height="{size[1]}"><rect width="30" height="40"/></svg>'
    )
    (outline,) = strokes(inner, 'width="450px" height="300px"')
    left, top, scale = corner
    expected = [left, top, 30 * scale, 40 * scale]
    assert box(outline) == pytest.approx(expected, abs=1e-4)


def test_view_box_without_an_aspect_stretches() -> None:
    """W3C, SVG 2, the same chapter, figure "ViewBox": 1500 by 1000 fill 300 by 200."""
    frame, triangle = strokes(
        '<rect width="1500" height="1000"/><path d="M 750,100 L 250,900 L 1250,900 z"/>',
        'width="300px" height="200px" viewBox="0 0 1500 1000" preserveAspectRatio="none"',
    )
    assert box(frame) == [0, 0, 300, 200]
    assert in_pixels(triangle) == [[150, 20], [50, 180], [250, 180], [150, 20]]


def test_transforms_follow_the_recommendations_examples() -> None:
    """W3C, SVG 2, the same chapter, figures "RotateScale" and "Skew": axes of 50 units each."""
    axes = '<path d="M50,0H0V50"/>'
    rotated, scaled, leaning, sloping = strokes(
        f'<g transform="translate(50,30)"><g transform="rotate(30)">{axes}</g></g>'
        f'<g transform="translate(200,40)"><g transform="scale(1.5)">{axes}</g></g>'
        f'<g transform="translate(30,30)"><g transform="skewX(30)">{axes}</g></g>'
        f'<g transform="translate(200,30)"><g transform="skewY(30)">{axes}</g></g>'
    )
    cos, sin, tan = np.cos(np.pi / 6), np.sin(np.pi / 6), np.tan(np.pi / 6)
    assert rotated / PIXEL == pytest.approx(
        np.array([[50 + 50 * cos, 30 + 50 * sin], [50, 30], [50 - 50 * sin, 30 + 50 * cos]])
    )
    assert scaled / PIXEL == pytest.approx(np.array([[275, 40], [200, 40], [200, 115]]))
    assert leaning / PIXEL == pytest.approx(np.array([[80, 30], [30, 30], [30 + 50 * tan, 80]]))
    assert sloping / PIXEL == pytest.approx(
        np.array([[250, 30 + 50 * tan], [200, 30], [200, 80]])
    )


def test_nested_transforms_are_applied_from_the_inside_out() -> None:
    """W3C, SVG 2, the same chapter, figure "Nested".

    translate(50,90), rotate(-45), translate(130,160); by hand: (130, 160) turned by -45 degrees
    is (290, 30) / sqrt 2.
    """
    (line,) = strokes(
        '<g transform="translate(50,90)"><g transform="rotate(-45)">'
        '<g transform="translate(130,160)"><line x1="0" y1="0" x2="50" y2="0"/></g></g></g>'
    )
    root = np.sqrt(2)
    start = np.array([50 + 290 / root, 90 + 30 / root])
    assert line / PIXEL == pytest.approx(start + np.array([[0, 0], [50 / root, -50 / root]]))


def test_one_transform_attribute_holds_several() -> None:
    (line,) = strokes('<path transform="translate(10,20),rotate(90 5 5)" d="M0,0H5"/>')
    assert in_pixels(line) == [[20, 20], [20, 25]]


def test_basic_shapes_are_their_outlines() -> None:
    square, open_, closed, line = strokes(
        '<rect x="1" y="2" width="30" height="40"/><polyline points="0,0 5,5 9,0"/>'
        '<polygon points="0,0 5,5 9,0"/><line x1="1" y1="2" x2="3" y2="4"/>'
    )
    assert in_pixels(square) == [[1, 2], [31, 2], [31, 42], [1, 42], [1, 2]]
    assert in_pixels(open_) == [[0, 0], [5, 5], [9, 0]]
    assert in_pixels(closed) == [[0, 0], [5, 5], [9, 0], [0, 0]]
    assert in_pixels(line) == [[1, 2], [3, 4]]


@pytest.mark.parametrize(
    "body",
    [
        '<circle cx="90" cy="70" r="60"/>',
        '<ellipse cx="90" cy="70" rx="60" ry="60"/>',
        '<path d="M150,70A60,60,0,1,1,30,70 60 60 0 0 1 150 70Z"/>',
        '<circle cx="45" r="1" transform="translate(90,70) scale(60) translate(-45)"/>',
    ],
)
def test_circles_stay_within_the_flatness(body: str) -> None:
    (ring,) = strokes(body)
    radius = np.hypot(*(ring / PIXEL - [90, 70]).T) * PIXEL
    assert ring[0].tolist() == ring[-1].tolist()
    assert radius == pytest.approx(60 * PIXEL)
    middles = (ring[1:] + ring[:-1]) / 2
    sagging = 60 * PIXEL - np.hypot(*(middles / PIXEL - [90, 70]).T) * PIXEL
    assert sagging.max() <= FLATNESS_MM / 2


def test_arc_is_that_of_the_implementation_notes() -> None:
    """Source: W3C, SVG 2, "elliptical arc implementation notes".

    Half axes 60 and 40, turned by -30 degrees, large and clockwise, from (0, 0) to (50, -25);
    the centre is worked here from the formulas of "conversion from endpoint to center
    parameterization", and the points are held against the ellipse.
    """
    rx, ry, turn = 60.0, 40.0, np.radians(-30)
    spin = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    half = spin.T @ (np.array([0.0, 0.0]) - [50, -25]) / 2
    over = rx**2 * ry**2 - rx**2 * half[1] ** 2 - ry**2 * half[0] ** 2
    under = rx**2 * half[1] ** 2 + ry**2 * half[0] ** 2
    factor = -np.sqrt(max(over / under, 0.0))  # large and sweep flags are alike
    middle = factor * np.array([rx * half[1] / ry, -ry * half[0] / rx])
    centre = spin @ middle + [25, -12.5]
    (arc,) = strokes('<path d="M0,0a60,40 -30 1,1 50,-25"/>')
    round_ = (arc / PIXEL - centre) @ spin / [rx, ry]
    assert np.hypot(*round_.T) == pytest.approx(1)
    assert arc[[0, -1]] / PIXEL == pytest.approx(np.array([[0, 0], [50, -25]]), abs=1e-9)
    angles = np.unwrap(np.arctan2(round_[:, 1], round_[:, 0]))
    assert (np.diff(angles) > 0).all()
    assert angles[-1] - angles[0] > np.pi


def test_arc_too_small_for_its_ends_grows() -> None:
    """W3C, SVG 2, 9.5.1: radii that cannot reach are scaled up until they just do."""
    (arc,) = strokes('<path d="M0,0A1,1,0,0,1,100,0"/>')
    assert np.hypot(*(arc / PIXEL - [50, 0]).T) == pytest.approx(50)


@pytest.mark.parametrize("data", ["M0,0A0,9,0,0,1,50,0", "M0,0A9,0,0,0,1,50,0"])
def test_arc_without_a_radius_is_a_line(data: str) -> None:
    """W3C, SVG 2, 9.5.1."""
    (line,) = strokes(f'<path d="{data}"/>')
    assert in_pixels(line) == [[0, 0], [50, 0]]


def test_bezier_curves_stay_within_the_flatness_after_a_lopsided_transform() -> None:
    controls = np.array([[0.0, 0.0], [90.0, -40.0], [20.0, 130.0], [140.0, 60.0]])
    (curve,) = strokes('<path transform="scale(3,0.5)" d="M0,0C90,-40,20,130,140,60"/>')
    scaled = controls * [3, 0.5] * PIXEL

    def place(t: Points) -> Points:
        t = t[:, None]
        a, b, c, d = scaled
        places: Points = (
            a * (1 - t) ** 3 + 3 * b * t * (1 - t) ** 2 + 3 * c * t**2 * (1 - t) + d * t**3
        )
        return places

    assert furthest(curve, place) <= FLATNESS_MM / 2
    assert len(curve) < 600


def test_quadratic_curve_ends_where_it_says() -> None:
    controls = np.array([[0.0, 0.0], [50.0, 80.0], [100.0, 0.0]]) * PIXEL
    (curve,) = strokes('<path d="M0,0Q50,80,100,0"/>')

    def place(t: Points) -> Points:
        t = t[:, None]
        places: Points = (
            controls[0] * (1 - t) ** 2 + 2 * controls[1] * t * (1 - t) + controls[2] * t**2
        )
        return places

    assert furthest(curve, place) <= FLATNESS_MM / 2
    assert in_pixels(curve[[0, -1]]) == [[0, 0], [100, 0]]


def test_small_drawing_is_fine_enough_to_be_enlarged() -> None:
    """Scaled from 6 mm to 600 mm a circle still keeps within the flatness."""
    (ring,) = strokes('<circle r="12"/>')
    wide = ring * (600 / np.ptp(ring[:, 0]))
    middles = (wide[1:] + wide[:-1]) / 2
    assert (300 - np.hypot(*middles.T)).max() <= FLATNESS_MM


def test_rounded_rectangle_touches_its_sides() -> None:
    (outline,) = strokes('<rect x="10" y="20" width="100" height="60" rx="15" ry="500"/>')
    assert box(outline) == [10, 20, 100, 60]
    assert in_pixels(outline[[0]]) == [[25, 20]]
    (plain,) = strokes('<rect width="100" height="60" ry="20"/>')
    corner = plain[np.abs(plain - [80 * PIXEL, 20 * PIXEL]).min(axis=1) >= 0]
    near = corner[(corner > [80 * PIXEL, -1]).all(axis=1) & (corner[:, 1] < 20 * PIXEL)]
    assert np.hypot(*(near / PIXEL - [80, 20]).T) == pytest.approx(20)


def test_every_subpath_is_a_stroke_of_its_own() -> None:
    found = strokes('<path d="M0,0H5M9,9v3h3zl-4-4m1,1h2"/>')
    assert [in_pixels(one) for one in found] == [
        [[0, 0], [5, 0]],
        [[9, 9], [9, 12], [12, 12], [9, 9]],
        [[9, 9], [5, 5]],
        [[6, 6], [8, 6]],
    ]


def test_number_may_end_in_a_point() -> None:
    (line,) = strokes('<path d="M1.,2.L3.5.5 6.-1."/>')
    assert in_pixels(line) == [[1, 2], [3.5, 0.5], [6, -1]]


def test_uses_draw_again_where_they_say() -> None:
    found = strokes(
        '<defs><path id="a" d="M0,0H5"/><g id="b"><use href="#a" y="2"/></g></defs>'
        '<use xlink:href="#a" x="10"/><use href="#b" transform="scale(2)" x="1"/>'
    )
    assert [in_pixels(one) for one in found] == [[[10, 0], [15, 0]], [[2, 4], [12, 4]]]


def test_symbol_is_drawn_only_where_it_is_used_and_fills_its_place() -> None:
    found = strokes(
        '<symbol id="s" viewBox="0 0 10 10"><path d="M0,0H10"/></symbol>'
        '<use href="#s" x="5" width="40" height="40"/>'
    )
    assert [in_pixels(one) for one in found] == [[[5, 0], [45, 0]]]


@pytest.mark.parametrize(
    ("attributes", "width"),
    [
        ("", 10),
        ('viewBox="0 0 100 50"', 10),
        ('viewBox="0 0 100 50" width="200"', 20),
        ('viewBox="0 0 100 50" height="200"', 40),
        ('viewBox="0 0 100 50" width="100%" height="100%"', 10),
        ('viewBox="0 0 0 50" width="200" height="50"', 10),
        ('viewBox="0 0 100 50" width="50mm" height="25mm"', 10 * 50 / 100 / PIXEL),
    ],
)
def test_page_says_how_large_a_unit_is(attributes: str, width: float) -> None:
    (line,) = strokes('<path d="M0,0H10"/>', attributes)
    assert box(line)[2] == pytest.approx(width, abs=1e-5)


def test_painted_shapes_are_outlines_and_unpainted_ones_are_not() -> None:
    body = (
        '<g fill="none"><path d="M0,0H1" stroke="red"/><path d="M0,0H2" fill="red"/>'
        '<path d="M0,0H3"/></g>'
    )
    drawing = read_drawing(svg(body), "one.svg")
    assert [box(one)[2] for one in drawing.strokes] == [1, 2]
    assert drawing.ignored == ("unpainted (1): it has neither stroke nor fill",)


@pytest.mark.parametrize(
    "shape",
    [
        '<path display="none" d="M0,0H1"/>',
        '<path style="display: none !important" d="M0,0H1"/>',
        '<g visibility="hidden"><path d="M0,0H1"/></g>',
        '<style>/* x */ .off, .dim { display:none }</style><path class="big off" d="M0,0H1"/>',
        "<style>path.off{visibility:hidden}</style><path class='off' d='M0,0H1'/>",
        "<style>#x{display:none}</style><path id='x' d='M0,0H1'/>",
        "<style>circle{display:none}</style><circle r='4'/>",
    ],
)
def test_hidden_shape_is_left_out_and_told(shape: str) -> None:
    assert ignored(shape) == ("hidden (1): it is hidden",)


def test_style_attribute_is_stronger_than_a_style_sheet() -> None:
    found = strokes(
        "<style>*{display:none} g, svg{display:inline}</style>"
        '<path style="display:inline" d="M0,0H7"/>'
    )
    assert [box(one)[2] for one in found] == [7]


@pytest.mark.parametrize(
    ("body", "told"),
    [
        (
            "<text>a</text><text>b</text>",
            "text (2): letters are no strokes; turn them into paths",
        ),
        ("<image/>", "image (1): a picture has no strokes"),
        ("<linearGradient/>", "linearGradient (1): colours are not sewn"),
        ("<clipPath><path d='M0,0H1'/></clipPath>", "clipPath (1): shapes are sewn whole"),
        ("<script>x</script>", "script (1): nothing in a drawing is run"),
        ("<use href='#none'/>", "use (1): it repeats what is not in the file"),
        ("<use href='other.svg#a'/>", "use (1): it repeats what is not in the file"),
        ("<path d='M5,5z'/><path d='M5,5h0'/>", "dot (1): a single point is no stroke"),
    ],
)
def test_what_has_no_strokes_is_left_out_and_told(body: str, told: str) -> None:
    assert ignored(body) == (told,)


def test_descriptions_and_foreign_elements_are_passed_in_silence() -> None:
    assert ignored("<title>a</title><desc>b</desc><x:path xmlns:x='urn:x' d='M0,0H1'/>") == ()


def test_shapes_without_a_size_are_not_drawn() -> None:
    """W3C, SVG 2, 10: a radius, width or height of zero draws nothing."""
    found = strokes(
        '<circle r="0"/><ellipse rx="5"/><rect width="5"/><polygon points=""/><path d=""/>'
        '<svg width="0"><path d="M0,0H5"/></svg><path d="M0,0H7"/>'
    )
    assert [box(one)[2] for one in found] == [7]


def test_encodings_other_than_utf_8_are_read() -> None:
    text = '<?xml version="1.0" encoding="utf-16"?>' + svg('<path d="M0,0H5"/>').decode()
    assert len(read_drawing(text.encode("utf-16"), "one.svg").strokes) == 1


def test_percentage_of_a_radius_is_of_the_diagonal() -> None:
    """W3C, SVG 2, "units": percentages of other lengths are of sqrt((w^2 + h^2) / 2)."""
    (ring,) = strokes('<circle r="10%"/>', 'width="70" height="10"')
    assert box(ring)[2] == pytest.approx(2 * 0.1 * 50, abs=1e-4)


def test_font_size_may_be_relative_and_a_word_changes_nothing() -> None:
    found = strokes(
        '<g font-size="10"><g font-size="2em"><path d="M0,0H1"/><line x2="1em"/></g>'
        '<g font-size="150%"><line x2="1em"/></g><g font-size="larger"><line x2="1ex"/></g></g>'
    )
    assert [box(one)[2] for one in found] == [1, 20, 15, 5]
