"""Panels of a piece that is wider than its cloth (geometry; widths common practice)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.estimate.cloth_layout import fits
from stitchpath.estimate.panels import NARROWEST_MM, cut_panels
from stitchpath.model.estimate import Rectangle


def _piece(width: float, length: float, *, may_turn: bool = True) -> Rectangle:
    return Rectangle(what="backing", width=width, length=length, may_turn=may_turn)


@given(
    width=st.floats(200, 4000),
    length=st.floats(200, 4000),
    cloth=st.floats(300, 2800),
    allowance=st.floats(0, 50),
    may_turn=st.booleans(),
)
def test_sewn_together_panels_are_the_piece(
    width: float, length: float, cloth: float, allowance: float, *, may_turn: bool
) -> None:
    piece = _piece(width, length, may_turn=may_turn)
    panels = cut_panels(piece, cloth, allowance=allowance)
    assert all(fits(panel, cloth) for panel in panels)
    joined = sum(panel.width for panel in panels) - 2 * allowance * (len(panels) - 1)
    long = panels[0].length
    assert all(panel.length == long for panel in panels)
    sides = (joined, long)
    assert sides == pytest.approx((width, length)) or (
        may_turn and sides == pytest.approx((length, width))
    )


def test_a_piece_that_fits_is_cut_whole() -> None:
    piece = _piece(900, 3000)
    assert cut_panels(piece, 1000, allowance=7) == (piece,)
    turned = _piece(3000, 900)
    assert cut_panels(turned, 1000, allowance=7) == (turned,)


def test_panels_run_the_way_that_takes_less_cloth() -> None:
    """1200 x 1500 on 1000: two panels along are 3000 of cloth, two across 2400."""
    across = cut_panels(_piece(1200, 1500), 1000, allowance=0)
    assert [(panel.width, panel.length) for panel in across] == [(1000, 1200), (500, 1200)]
    along = cut_panels(_piece(1200, 1500, may_turn=False), 1000, allowance=0)
    assert [(panel.width, panel.length) for panel in along] == [(1000, 1500), (200, 1500)]


def test_no_panel_is_a_mere_strip() -> None:
    panels = cut_panels(_piece(1050, 1500, may_turn=False), 1000, allowance=5)
    assert [panel.width for panel in panels] == [530, 530]
    assert min(panel.width for panel in panels) > NARROWEST_MM
