"""How damp wood becomes, and how it moves."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.moisture import body_swing, coefficient, equilibrium

TEMPERATURES = st.integers(0, 40).map(Fraction)
HUMIDITIES = st.integers(5, 90).map(lambda percent: Fraction(percent, 100))


@given(TEMPERATURES, HUMIDITIES)
def test_damper_air_makes_damper_wood(temperature: Fraction, humidity: Fraction) -> None:
    """At any temperature; and there is always some moisture, never more than soaked fibres hold."""
    found = equilibrium(temperature, humidity)
    assert 0 < found < equilibrium(temperature, humidity + Fraction(1, 100)) < 30


def test_dry_air_makes_dry_wood() -> None:
    """Without humidity there is nothing to take up."""
    assert equilibrium(Fraction(20), Fraction(0)) == 0


@given(st.integers(1, 200).map(lambda tenths: Fraction(tenths, 10)))
def test_wood_that_shrinks_more_moves_more(shrinkage: Fraction) -> None:
    """And by a little more than an even share for each of the 30 % down from soaked fibres."""
    moved = coefficient(shrinkage)
    assert shrinkage / 3000 < moved < coefficient(shrinkage + 1)


def test_a_body_moves_by_some_millimetres() -> None:
    """In proportion to its depth: 1 to 5 mm for the usual ones."""
    assert 1 < body_swing(Fraction(160)) < body_swing(Fraction(310)) < 5
    assert body_swing(Fraction(320)) == 2 * body_swing(Fraction(160))


@pytest.mark.parametrize("humidity", ["-0.1", "1", "50"])
def test_a_humidity_that_cannot_be_is_refused(humidity: str) -> None:
    """It is a share of what air can hold, not a percentage."""
    with pytest.raises(ValueError, match=r"^-?[0-9]"):
        equilibrium(Fraction(20), Fraction(humidity))


@pytest.mark.parametrize("shrinkage", ["0", "100", "-3"])
def test_a_shrinkage_that_cannot_be_is_refused(shrinkage: str) -> None:
    """Something is left of a board, and it does not grow by drying."""
    with pytest.raises(ValueError, match=r"^-?[0-9]"):
        coefficient(Fraction(shrinkage))
