"""Wires counted exactly."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.bees import GapBand
from sizing.fabrication.wires import (
    equal_gap,
    filler_strip,
    least_wires,
    made_gap,
    nominal_band,
    wire_row,
)

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


OFF = st.integers(0, 20).map(lambda hundredths: Fraction(hundredths, 100))


@given(OFF, OFF, st.fractions(-1, 1), st.fractions(-1, 1), st.fractions(-1, 1))
def test_a_made_gap_lies_within_what_wire_and_jig_allow(
    thick: Fraction, place: Fraction, one: Fraction, other: Fraction, wire: Fraction
) -> None:
    """However two wires lie and however thick they are, the gap between them is within."""
    gap = Fraction("4.2")
    low, high = made_gap(gap, thick, place)
    left = one * place + (2 + wire * thick) / 2
    right = gap + 2 + other * place - (2 + wire * thick) / 2
    assert low <= right - left <= high


@given(OFF, OFF)
def test_what_may_be_drawn_holds_the_band_when_made(thick: Fraction, place: Fraction) -> None:
    """Both ends of the narrower band just reach the wide one; None where it is empty."""
    inner = nominal_band(ISOLATE, thick, place)
    if inner is None:
        assert 2 * (thick + 2 * place) > ISOLATE.limit - ISOLATE.least
        return
    assert made_gap(inner.least, thick, place)[0] == ISOLATE.least
    assert made_gap(inner.limit, thick, place)[1] == ISOLATE.limit


def in_band(opening: Fraction, diameter: Fraction) -> bool:
    """Whether some number of wires puts the gaps into the band."""
    wires = 0
    while (gap := equal_gap(opening, diameter, wires)) >= ISOLATE.least:
        if gap <= ISOLATE.limit:
            return True
        wires += 1
    return False


@given(st.integers(41, 3000).map(lambda tenths: Fraction(tenths, 10)), DIAMETERS)
def test_the_filler_is_the_least_that_brings_the_gaps_into_the_band(
    opening: Fraction, diameter: Fraction
) -> None:
    """With it they lie in the band; with a little less they do not."""
    filler = filler_strip(opening, diameter, ISOLATE)
    assert in_band(opening - filler, diameter)
    for less in (filler * Fraction(999, 1000), filler / 2, Fraction(0)):
        assert filler == 0 or not in_band(opening - less, diameter)


def test_an_opening_of_180_9_needs_a_filler_and_187_1_is_the_first_that_never_does() -> None:
    """28 or 29 wires of 2.0 leave 180.9 out; from 187.1 on some count always does it."""
    assert filler_strip(Fraction("180.9"), Fraction(2), ISOLATE) > 0
    wide = [Fraction(tenths, 10) for tenths in range(1871, 6000)]
    assert {filler_strip(opening, Fraction(2), ISOLATE) for opening in wide} == {0}


def test_an_opening_narrower_than_a_gap_needs_nothing() -> None:
    """It holds as it is; nothing and negative tolerances are refused."""
    assert filler_strip(Fraction(3), Fraction(2), ISOLATE) == 0
    with pytest.raises(ValueError, match="Fraction"):
        filler_strip(Fraction(0), Fraction(2), ISOLATE)
    with pytest.raises(ValueError, match="Fraction"):
        made_gap(Fraction(4), Fraction(-1), Fraction(0))
