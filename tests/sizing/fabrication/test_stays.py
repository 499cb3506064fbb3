"""Stays across the wires."""

from __future__ import annotations

from fractions import Fraction
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.fabrication.stays import Press, bend_in_the_middle, stays

STEEL = Fraction(200_000)
THUMB = Press(Fraction(10), STEEL)
WIRE, LIMIT = Fraction(2), Fraction("4.3")
GAPS = st.integers(400, 429).map(lambda hundredths: Fraction(hundredths, 100))
LENGTHS = st.integers(200, 5000).map(lambda tenths: Fraction(tenths, 10))
LOADS = st.integers(0, 60).map(lambda newtons: Press(Fraction(newtons), STEEL))


def pressed(gap: Fraction, span: Fraction, press: Press) -> float:
    """The gap beside a pressed wire [mm], worked out with the Pythagorean theorem in floats."""
    bend = float(bend_in_the_middle(span, WIRE, press))
    return hypot(float(gap + WIRE), bend) - float(WIRE)


def test_twice_the_span_bends_eight_times_as_far() -> None:
    """The bend goes with the third power of the span and falls with the fourth of the wire."""
    once = bend_in_the_middle(Fraction(60), WIRE, THUMB)
    assert bend_in_the_middle(Fraction(120), WIRE, THUMB) == 8 * once
    assert bend_in_the_middle(Fraction(60), 2 * WIRE, THUMB) == once / 16


@given(LENGTHS, GAPS, LOADS)
def test_the_stays_hold_the_gap_and_one_less_does_not(
    length: Fraction, gap: Fraction, press: Press
) -> None:
    """With them the pressed gap is within the limit; with one less it is not, or a span is long."""
    found = stays(length, gap, WIRE, LIMIT, press, Fraction(130))
    assert found is not None
    assert found.span * (found.count + 1) == length
    assert found.span <= 130
    assert pressed(gap, found.span, press) <= float(LIMIT) + 1e-9
    if found.count > 0:
        wider = length / found.count
        assert wider > 130 or pressed(gap, wider, press) > float(LIMIT) - 1e-9


@given(LENGTHS, GAPS, LOADS)
def test_a_harder_thumb_never_needs_fewer_stays(
    length: Fraction, gap: Fraction, press: Press
) -> None:
    """More load, as many stays or more."""
    harder = Press(press.load + 5, STEEL)
    usual = stays(length, gap, WIRE, LIMIT, press, Fraction(130))
    more = stays(length, gap, WIRE, LIMIT, harder, Fraction(130))
    assert usual is not None
    assert more is not None
    assert more.count >= usual.count


@pytest.mark.parametrize("gap", ["4.3", "4.4"])
def test_no_stay_helps_a_gap_that_is_at_its_limit(gap: str) -> None:
    """There is no room to bend at all."""
    assert stays(Fraction(260), Fraction(gap), WIRE, LIMIT, THUMB, Fraction(130)) is None


def test_without_a_thumb_only_the_longest_span_counts() -> None:
    """260 over at most 130 is one stay in the middle; a little more needs a second."""
    still = Press(Fraction(0), STEEL)
    one = stays(Fraction(260), Fraction("4.2"), WIRE, LIMIT, still, Fraction(130))
    two = stays(Fraction("260.1"), Fraction("4.2"), WIRE, LIMIT, still, Fraction(130))
    assert one is not None
    assert two is not None
    assert (one.count, two.count) == (1, 2)
    assert one.span == 130


@pytest.mark.parametrize(
    ("length", "longest"), [(Fraction(0), Fraction(130)), (Fraction(260), Fraction(0))]
)
def test_lengths_of_nothing_are_refused(length: Fraction, longest: Fraction) -> None:
    """A panel has a length and a span too."""
    with pytest.raises(ValueError, match="Fraction"):
        stays(length, Fraction("4.2"), WIRE, LIMIT, THUMB, longest)
    with pytest.raises(ValueError, match="Fraction"):
        bend_in_the_middle(Fraction(0), WIRE, THUMB)
