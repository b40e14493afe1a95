"""Whatever is in a file that a project places, there is a plan to be sewn or a problem."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.properties.test_hostile_drawings import SEEDS as DRAWINGS
from tests.properties.test_hostile_drawings import TOKENS
from tests.properties.test_hostile_stitch_files import CUTS, NIGHT, READER, damaged
from tests.support.hostile_designs import WAYS, plan_hostile_design, plan_hostile_drawing
from tests.support.kinds_of_files import KINDS, TEXT_KINDS, file_of_kind


def fewer() -> int:
    """Return half the examples by day: each is planned."""
    asked = settings().max_examples
    return asked if asked >= NIGHT else asked // 2


@settings(max_examples=fewer(), deadline=None)
@given(
    kind=st.sampled_from([*KINDS, *TEXT_KINDS]),
    way=st.sampled_from(WAYS),
    cuts=CUTS,
    end=st.integers(0, 400),
)
@example(kind="exp", way="mirror = false", cuts=[(2, 0, b"\x80")], end=0)  # one needle point
def test_damaged_design_is_sewn_or_refused(
    kind: str, way: str, cuts: list[tuple[int, int, bytes]], end: int
) -> None:
    data = damaged(file_of_kind(kind), cuts, end)
    plan_hostile_design(data, f".{kind}", way, READER.read_bytes)


@settings(max_examples=fewer(), deadline=None)
@given(
    st.sampled_from(DRAWINGS),
    st.lists(st.tuples(st.integers(0, 2000), st.integers(0, 12), TOKENS), max_size=4),
)
def test_damaged_drawing_is_sewn_or_refused(
    seed: bytes, cuts: list[tuple[int, int, bytes]]
) -> None:
    plan_hostile_drawing(damaged(seed, [*cuts], 0))
