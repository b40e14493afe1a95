"""Thread sizes against published conversions: docs/sources.md, thread."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.catalog.threads import NE_TEX, THREADS, ThreadUnit, from_tex, to_tex


def test_count_times_tex_is_the_published_constant() -> None:
    assert pytest.approx(590.5, abs=0.05) == NE_TEX


@pytest.mark.parametrize(
    ("nm", "ne", "tex"),
    [
        (10, 5.9, 100),
        (20, 11.8, 50),
        (30, 17.7, 33),
        (40, 23.6, 25),
        (50, 29.5, 20),
        (60, 35.4, 17),
        (80, 47.2, 12.5),
        (100, 59.0, 10),
    ],
)
def test_a_published_table_of_nm_ne_and_tex(nm: float, ne: float, tex: float) -> None:
    """Its fourth column, denier, contradicts its own tex (590 for tex 100) and is left out."""
    assert to_tex(nm, "Nm") == pytest.approx(tex, abs=0.5)
    assert from_tex(to_tex(nm, "Nm"), "Ne") == pytest.approx(ne, rel=0.002)


@pytest.mark.parametrize(
    ("denier", "ne"), [(120, 44.3), (150, 35.4), (180, 29.5), (177.17, 30)]
)
def test_denier_and_count(denier: float, ne: float) -> None:
    """Ne = 5315 / denier, with its examples."""
    assert from_tex(to_tex(denier, "denier"), "Ne") == pytest.approx(ne, abs=0.06)


def test_plies_add_up() -> None:
    """40s/2 is tex 29.5, 50/3 tex 35; 10s of polyester 59 (for cotton some reckon 58.3)."""
    assert to_tex(40, "Ne", plies=2) == pytest.approx(29.5, abs=0.05)
    assert to_tex(50, "Ne", plies=3) == pytest.approx(35, abs=0.5)
    assert to_tex(10, "Ne") == pytest.approx(59.05, abs=0.05)


@pytest.mark.parametrize(
    ("wt", "tex"),
    [(12, 83), (28, 36), (30, 33), (40, 25), (50, 20), (60, 16.7), (80, 12.5), (100, 10)],
)
def test_weight_is_kilometres_to_the_kilogram(wt: float, tex: float) -> None:
    assert to_tex(wt, "wt") == pytest.approx(tex, abs=0.5)


def test_a_length_of_yarn_by_its_weight() -> None:
    """95 g of 50/2: 4,022 m, 1.6933 Ne metres to the gram (the source prints 4,002)."""
    metres = 95 / to_tex(50, "Ne", plies=2) * 1000
    assert metres == pytest.approx(4022, abs=1)


@given(
    size=st.floats(1, 500), unit=st.sampled_from(["tex", "dtex", "denier", "wt", "Nm", "Ne"])
)
def test_sizes_convert_back(size: float, unit: ThreadUnit) -> None:
    assert from_tex(to_tex(size, unit), unit) == pytest.approx(size)


def test_a_listed_thread_tells_its_sizes() -> None:
    assert [thread.name for thread in THREADS][4] == "50 wt"
    assert THREADS[4].summary == "tex 20.0, 180 denier, Ne 29.5"
