"""A whole file at the edge of what each format holds, and what its header says."""

import numpy as np
import pytest
from pyembroidery import EmbPattern, EmbThread

from stitchpath.catalog.formats import FORMATS, Format
from stitchpath.machine import decode, stitch_file
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.thread import ThreadPair
from tests.support.dst_record import decode_body, header_fields
from tests.support.stitch_sets import flat_hooping, make_stitches

all_formats = pytest.mark.parametrize("format_", FORMATS.values(), ids=FORMATS)
S, J, C, P = Op.STITCH, Op.JUMP, Op.CUT, Op.PAUSE


def _file(stitches: Stitches, format_: Format, *, name: str = "sea", turn: float = 0) -> bytes:
    return stitch_file(
        stitches,
        flat_hooping(turn_deg=turn),
        format=format_,
        name=name,
        thread=ThreadPair(top="#2a6f77"),
    )


@all_formats
def test_farthest_points_and_longest_steps_come_back(format_: Format) -> None:
    far, step = format_.farthest_units / 10, format_.longest_step_mm
    corners = [[far, far], [-far, -far], [far, -far], [-far, far]]
    xy = [
        [x + dx, y + dy]
        for x, y in corners
        for dx, dy in [(0, 0), (0, 0), (-np.sign(x) * step, -np.sign(y) * step)]
    ]
    stitches = make_stitches(xy, [J, S, S] * 4)
    read = decode(_file(stitches, format_), format_.name).needle_points_units
    np.testing.assert_array_equal(read, np.rint(stitches.needle_points * 10))


@pytest.mark.parametrize("name", ["dst", "pes", "vp3"])
def test_most_pauses_come_back(name: str) -> None:
    most = FORMATS[name].most_pauses
    assert most is not None
    xy = np.zeros((2 * most + 1, 2))
    xy[:, 0] = np.arange(len(xy)) // 2 % 7
    stitches = make_stitches(xy, [S, P] * most + [S])
    read = decode(_file(stitches, FORMATS[name]), name)
    assert np.count_nonzero(read.op == P) == most


@pytest.mark.parametrize("name", [n for n, f in FORMATS.items() if f.pause == "stop"])
def test_pause_is_a_stop_where_the_catalogue_says_so(name: str) -> None:
    assert _commands_of_two_pauses(name) == ["STOP", "STOP"]


@pytest.mark.parametrize("name", [n for n, f in FORMATS.items() if f.pause == "colour"])
def test_pause_is_a_change_of_colour_where_the_catalogue_says_so(name: str) -> None:
    want = ["STOP", "COLOR_CHANGE"] if name == "jef" else ["COLOR_CHANGE"] * 2
    assert _commands_of_two_pauses(name) == want


def _commands_of_two_pauses(name: str) -> list[str]:
    stitches = make_stitches([[0, 0], [0, 0], [3, 0], [3, 0], [6, 0]], [S, P, S, P, S])
    return [c for c in _library_commands(_file(stitches, FORMATS[name]), name) if c[0] in "SC"]


def _library_commands(data: bytes, name: str) -> list[str]:
    """Read with the library alone and name what is not a stitch."""
    import io  # noqa: PLC0415 - one oracle, kept together

    import pyembroidery  # noqa: PLC0415

    names = {getattr(pyembroidery, n): n for n in ("STOP", "COLOR_CHANGE", "TRIM", "JUMP")}
    pattern: EmbPattern = getattr(EmbPattern, f"read_{name}")(io.BytesIO(data))
    return [names[row[2] & 0xFF] for row in pattern.stitches if row[2] & 0xFF in names]


@pytest.mark.parametrize("name", ["pes", "jef", "vp3", "xxx"])
def test_colour_is_near_the_thread_where_the_format_stores_one(name: str) -> None:
    import io  # noqa: PLC0415

    stitches = make_stitches([[0, 0], [2, 0], [2, 0], [4, 0]], [S, S, P, S])
    data = _file(stitches, FORMATS[name])
    threads = getattr(EmbPattern, f"read_{name}")(io.BytesIO(data)).threadlist
    first = EmbThread("#2a6f77")
    off = max(
        abs(getattr(threads[0], part)() - getattr(first, part)())
        for part in ("get_red", "get_green", "get_blue")
    )
    assert FORMATS[name].stores_colour
    assert off == 0 if name in {"vp3", "xxx"} else off <= 60  # a palette of 64 or 78


def test_uncut_jump_of_three_hops_reads_as_a_cut_where_the_catalogue_says_so() -> None:
    stitches = make_stitches([[0, 0], [36, 0], [36, 0]], [S, J, S])
    for name, format_ in FORMATS.items():
        read = decode(_file(stitches, format_), name)
        assert (Op.CUT in read.op[:-1]) == (format_.cut_records is not None), name


def test_uncut_jump_of_two_hops_stays_a_jump_in_dst_and_jef() -> None:
    stitches = make_stitches([[0, 0], [24, 0], [24, 0]], [S, J, S])
    for name in ("dst", "jef"):
        assert Op.CUT not in decode(_file(stitches, FORMATS[name]), name).op


@pytest.mark.parametrize("turn", [0.0, 90.0, 180.0, 270.0, 31.7])
def test_file_is_in_the_fields_own_axes(turn: float) -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(812.5, 640.0), turn_deg=turn)
    field = np.array([[-50.0, 20.0], [-47.0, 20.0], [-47.0, 23.0]])
    stitches = make_stitches(hooping.to_piece(field), [S, S, S])
    data = stitch_file(
        stitches, hooping, format=FORMATS["exp"], name="turn", thread=ThreadPair()
    )
    assert decode(data, "exp").needle_points_units.tolist() == [
        [-500, 200],
        [-470, 200],
        [-470, 230],
    ]


def test_dst_header_counts_records_and_measures_from_the_start() -> None:
    # All on one side of the start: where the library alone gives +X 300, -X 100 and so on.
    stitches = make_stitches(
        [[10, -20], [20, -25], [20, -25], [20, -25], [30, -30]], [S, S, C, P, S]
    )
    data = _file(stitches, FORMATS["dst"], name="Harbour lights for a long winter")
    fields = header_fields(data)
    assert fields["LA"] == "Harbour_lights_f"
    assert int(fields["ST"]) == len(decode_body(data))
    assert int(fields["CO"]) == 1
    extents = [int(fields[label]) for label in ("+X", "-X", "+Y", "-Y")]
    assert extents == [300, 0, 300, 0]  # y up in the file
    assert data[512 - 1 : 512] == b" "
    assert data[: data.index(b"\x1a")].count(b"\r") == 12


def test_dst_header_keeps_its_places_at_the_largest_extents() -> None:
    far = FORMATS["dst"].farthest_units / 10
    stitches = make_stitches([[far, far], [far, far], [-far, -far], [-far, -far]], [J, S] * 2)
    fields = header_fields(_file(stitches, FORMATS["dst"]))
    assert [fields[label] for label in ("+X", "-X", "+Y", "-Y")] == ["99999"] * 4


def test_library_alone_has_the_extents_wrong_which_is_why_we_write_them() -> None:
    import io  # noqa: PLC0415

    pattern, stream = EmbPattern(), io.BytesIO()
    pattern.stitches.extend([[100, -200, 0], [300, -300, 0], [300, -300, 4]])
    pattern.add_thread(EmbThread("#000000"))
    EmbPattern.write_dst(pattern, stream, {"encode": True})
    fields = header_fields(stream.getvalue())
    assert [fields[label] for label in ("+X", "-X", "+Y", "-Y")] != ["300", "0", "300", "0"]
