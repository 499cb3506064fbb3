"""What a bend takes up, by each rule the workshop can choose."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.fabrication.bending import (
    bend_allowance,
    correction,
    din_factor,
    factor_of_strip,
    fold_of,
    least_flange,
)
from sizing.workshop import Figures

SHEET = st.integers(4, 30).map(lambda tenths: Fraction(tenths, 10))
RADIUS = st.integers(5, 60).map(lambda tenths: Fraction(tenths, 10))


@given(RADIUS, SHEET)
def test_the_neutral_line_lies_between_inside_and_middle(radius: Fraction, sheet: Fraction) -> None:
    """K is above 0 and at most a half, and one half from a radius of five thicknesses on."""
    factor = din_factor(radius, sheet)
    assert 0 < factor <= 0.5
    assert (factor == 0.5) is (radius / sheet >= 10**0.7)


@pytest.mark.parametrize(("radius", "sheet"), [("0", "1"), ("1", "0"), ("0.01", "1")])
def test_no_radius_no_sheet_and_a_knife_edge_are_refused(radius: str, sheet: str) -> None:
    """There is no neutral line to give the length of."""
    with pytest.raises(ValueError, match="Fraction"):
        din_factor(Fraction(radius), Fraction(sheet))


@given(RADIUS, SHEET)
def test_both_ways_to_measure_a_leg_agree_at_the_right_angle(
    radius: Fraction, sheet: Fraction
) -> None:
    """Just under 90 degrees the legs are measured otherwise; nothing jumps."""
    factor = din_factor(radius, sheet)
    under, at = (correction(radius, sheet, factor, turned) for turned in (90 - 1e-6, 90))
    assert under == pytest.approx(at, abs=1e-5)


def test_a_sheet_turned_back_on_itself_is_half_a_ring() -> None:
    """180 degrees round an inside radius of 2, K one half in 1 mm: half of a circle of 2.5."""
    assert bend_allowance(Fraction(2), Fraction(1), 0.5, 180) == pytest.approx(pi * 2.5)


@given(RADIUS, SHEET, st.floats(0.1, 0.5))
def test_a_strip_bent_with_a_k_gives_that_k(radius: Fraction, sheet: Fraction, k: float) -> None:
    """Legs of 40 and 30, the blank that K gives, and K again from them."""
    blank = 70 + Fraction(correction(radius, sheet, k))
    found = factor_of_strip(Fraction(40), Fraction(30), blank, radius, sheet)
    assert found == pytest.approx(k, abs=1e-9)


def test_the_workshop_chooses_the_rule(figures: Figures) -> None:
    """A smaller K makes a shorter blank; the strip of the figures is one bent by the standard."""
    sheet = figures.end_sheet
    din, own, strip = (
        fold_of(sheet, replace(figures, bend_rule=rule, bend_own_k=Fraction(3, 10)))
        for rule in ("din-6935", "own-k", "test-strip")
    )
    assert own.correction < din.correction
    assert float(strip.correction) == pytest.approx(float(din.correction), abs=0.02)
    assert din.zone == din.correction + 2 * (figures.bend_radius + sheet)


def test_the_usual_flanges_can_be_bent(figures: Figures) -> None:
    """Every leg that is a figure is at least as long as the bench can hold."""
    edge = figures.face_thickness - figures.wire_diameter
    for leg in (figures.face_thickness, figures.edge_strip, figures.guide_reach):
        assert leg >= least_flange(edge, figures)
    assert figures.floor_flange >= least_flange(figures.floor_flat, figures)


def test_the_floor_s_flanges_stay_under_frame_and_guides(figures: Figures) -> None:
    """They end below the frame's lowest wood and below the lower end of the guides."""
    assert figures.floor_flange < figures.floor_flat + figures.gap_under_least
    assert figures.floor_flange < figures.edge_strip
