"""Exact lengths, checked against an independent library of units."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.units import CENTIMETRE, FOOT, INCH, METRE, exact, nearest, rounded

UNITS = {"centimeter": CENTIMETRE, "meter": METRE, "inch": INCH, "foot": FOOT}


@cache
def registry() -> Any:
    """An independent library of units that keeps fractions."""
    return pint.UnitRegistry(non_int_type=Fraction)


def test_conversions_agree_with_an_independent_library_thousands_of_times() -> None:
    """Every quarter of a unit up to 1000 of it is the same length in both, exactly."""
    compared = 0
    for name, ours in UNITS.items():
        one = registry().Quantity(Fraction(1), name).to("millimeter").magnitude
        assert one == ours
        for quarters in range(1, 2001):
            amount = Fraction(quarters, 4)
            theirs = registry().Quantity(amount, name).to("millimeter").magnitude
            assert amount * ours == theirs
            compared += 1
    assert compared == 8000


@given(st.integers(0, 30), st.integers(1, 63))
def test_inch_fractions_agree_with_an_independent_library(whole: int, sixty_fourths: int) -> None:
    """A length of whole inches and sixty-fourths is the same in both, exactly."""
    amount = whole + Fraction(sixty_fourths, 64)
    assert amount * INCH == registry().Quantity(amount, "inch").to("millimeter").magnitude


def test_exact_keeps_what_is_written() -> None:
    """Decimals and fractions come through as they were written."""
    assert exact("447.7") == Fraction(4477, 10)
    assert exact("127/20") == Fraction(635, 100)
    assert exact(Decimal("0.1")) + exact(Decimal("0.2")) == Fraction(3, 10)


def test_exact_refuses_what_is_no_exact_length() -> None:
    """A float is refused by its type, text that is no number and infinity by their value."""
    with pytest.raises(TypeError):
        exact(0.1)  # type: ignore[arg-type]
    for text in ("", "ten", "1/0", "inf"):
        with pytest.raises(ValueError):  # noqa: PT011 - the text differs by Python version
            exact(text)
    with pytest.raises(ValueError, match="not a finite length"):
        exact(Decimal("Infinity"))


@given(st.fractions(-1000, 1000))
def test_rounding_is_to_the_nearest_thousandth(value: Fraction) -> None:
    """What is printed is at most half a thousandth away."""
    assert abs(Fraction(str(rounded(value))) - value) <= Fraction(1, 2000)


def test_rounding_takes_halves_away_from_zero() -> None:
    """Half a thousandth goes up in size on both sides of zero."""
    assert rounded(Fraction(5, 10000)) == 0.001
    assert rounded(Fraction(-5, 10000)) == -0.001


def test_a_computed_length_is_taken_to_the_thousandth() -> None:
    """What comes out of a logarithm becomes exact at three decimals, and never from no number."""
    assert nearest(-1.59036) == Fraction("-1.59")
    assert nearest(1.23449) == Fraction("1.234")
    with pytest.raises(ValueError, match="nan"):
        nearest(float("nan"))
