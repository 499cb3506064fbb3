"""How wood moves."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from sizing.measures import Measure
from sizing.uncertainty.wood import ACROSS_BODY, ACROSS_FRAME, growth, movement
from sizing.workshop import Figures


def test_a_box_of_240_grows_by_three_millimetres_in_a_wet_season() -> None:
    """Flat-sawn pine, 6 % of moisture more: about 3 mm, and as much less when it dries."""
    assert growth(Fraction(240), Fraction(6)) == pytest.approx(3.0, abs=0.1)
    assert growth(Fraction(240), Fraction(-6)) == -growth(Fraction(240), Fraction(6))


def test_the_day_of_measuring_is_any_day_of_the_swing(figures: Figures) -> None:
    """Rectangular over the whole swing: its width over √12; no swing, no movement."""
    whole = float(growth(Fraction(253), figures.moisture_swing))
    assert movement(Fraction(253), figures) == pytest.approx(whole / 12**0.5)
    assert movement(Fraction(253), replace(figures, moisture_swing=Fraction(0))) == 0.0


def test_nothing_moves_along_the_grain() -> None:
    """Side to side, height, top bar, inside length and lug room stay as they are."""
    along = {
        Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG, Measure.INSIDE_ALONG,
        Measure.LUG_ROOM,
    }  # fmt: skip
    assert not along & (ACROSS_BODY | ACROSS_FRAME)
