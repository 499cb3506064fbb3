"""Wires counted exactly."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.bees import GapBand
from sizing.fabrication.wires import equal_gap, least_wires, wire_row

TENTHS = st.integers(1, 6000).map(lambda tenths: Fraction(tenths, 10))
DIAMETERS = st.integers(8, 40).map(lambda tenths: Fraction(tenths, 10))
LIMITS = st.integers(280, 520).map(lambda hundredths: Fraction(hundredths, 100))

ISOLATE = GapBand(Fraction("4.1"), Fraction("4.3"))


def counted_up(opening: Fraction, diameter: Fraction, limit: Fraction) -> int:
    """The least count, found by adding wires until no gap is too wide."""
    wires = 0
    while (opening - wires * diameter) / (wires + 1) > limit:
        wires += 1
    return wires


@given(TENTHS, DIAMETERS, LIMITS)
def test_the_least_count_is_that_of_counting_up(
    opening: Fraction, diameter: Fraction, limit: Fraction
) -> None:
    """The formula and adding wire by wire agree, exactly."""
    assert least_wires(opening, diameter, limit) == counted_up(opening, diameter, limit)


def test_twenty_wires_where_floats_count_twenty_one() -> None:
    """130.3 wide, 2.0 wire, 4.3 gap: 126 / 6.3 is 20."""
    assert least_wires(Fraction("130.3"), Fraction(2), Fraction("4.3")) == 20
    assert equal_gap(Fraction("130.3"), Fraction(2), 20) == Fraction("4.3")


@given(TENTHS, DIAMETERS)
def test_what_is_made_holds_and_is_nearest_the_middle(
    opening: Fraction, diameter: Fraction
) -> None:
    """The made gap holds; no count in the band lies nearer the middle of it."""
    row = wire_row(opening, diameter, ISOLATE)
    assert row.gap <= ISOLATE.limit
    assert row.wires >= row.least_wires
    in_band = [
        gap
        for wires in range(row.least_wires, row.least_wires + 60)
        if ISOLATE.holds(gap := equal_gap(opening, diameter, wires))
    ]
    if in_band:
        nearest = min(abs(gap - ISOLATE.middle) for gap in in_band)
        assert ISOLATE.holds(row.gap)
        assert abs(row.gap - ISOLATE.middle) == nearest
    else:
        assert row.wires == row.least_wires


@given(TENTHS, DIAMETERS)
def test_gaps_and_wires_fill_the_opening(opening: Fraction, diameter: Fraction) -> None:
    """One gap more than wires, together as wide as the opening."""
    row = wire_row(opening, diameter, ISOLATE)
    assert row.wires * diameter + (row.wires + 1) * row.gap == opening


def test_an_opening_that_holds_by_itself_needs_no_wire() -> None:
    """4.3 wide needs none, a hair more needs one."""
    assert least_wires(Fraction("4.3"), Fraction(2), Fraction("4.3")) == 0
    assert least_wires(Fraction("4.301"), Fraction(2), Fraction("4.3")) == 1


@pytest.mark.parametrize("wrong", range(3))
def test_lengths_that_are_none_are_refused(wrong: int) -> None:
    """Opening, diameter and limit are lengths above 0."""
    lengths = [Fraction(100), Fraction(2), Fraction(4)]
    lengths[wrong] = Fraction(0)
    with pytest.raises(ValueError, match="Fraction"):
        least_wires(*lengths)
