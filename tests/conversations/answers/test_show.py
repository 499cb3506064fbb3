"""A length the way a person writes it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conversations.answers.reading import read
from conversations.answers.show import decimal, written
from conversations.answers.units import Unit
from sizing.measures import Measure


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        ("363", Unit.MM, "363 mm"),
        ("363", Unit.CM, "36.3 cm"),
        ("360", Unit.CM, "36 cm"),
        ("363", Unit.M, "0.363 m"),
        ("358.775", Unit.MM, "358.8 mm"),
        ("358.775", Unit.IN, "14 1/8 in"),
        ("457.2", Unit.IN, "18 in"),
        ("22.225", Unit.IN, "7/8 in"),
        ("363", Unit.IN, "14.29 in"),
        ("0", Unit.MM, "0 mm"),
    ],
)
def test_lengths_are_written_as_people_write_them(value: str, unit: Unit, text: str) -> None:
    """No needless zeros; inches as fractions where a tape shows them."""
    assert written(Fraction(value), unit) == text


def test_the_decimal_mark_is_the_callers() -> None:
    """The comma goes wherever a decimal mark stands, not into fractions."""
    assert written(Fraction(363), Unit.CM, ",") == "36,3 cm"
    assert written(Fraction(363), Unit.IN, ",") == "14,29 in"
    assert written(Fraction("358.775"), Unit.IN, ",") == "14 1/8 in"


def test_halves_are_rounded_away_from_zero() -> None:
    """A rounded number is the nearest one on either side of zero."""
    assert decimal(Fraction("0.25"), 1) == "0.3"
    assert decimal(Fraction("-0.25"), 1) == "-0.3"
    assert decimal(Fraction("-0.04"), 1) == "0"
    assert decimal(Fraction("35.96"), 1) == "36"


@given(st.integers(1510, 4990), st.sampled_from(Unit))  # rounded to 1/16 in still usual
def test_what_is_written_reads_back_as_the_same_length(tenths: int, unit: Unit) -> None:
    """Our own echo, typed by a person, gives the length again to what is shown of it."""
    value = Fraction(tenths, 10)
    reading = read(written(value, unit), Measure.SIDE_TO_SIDE)
    assert abs(reading.values[0] - value) <= (
        Fraction("0.13") if unit is Unit.IN else Fraction(1, 2)
    )
