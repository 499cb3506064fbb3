"""General tolerances are looked up as the standard's table is read."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.tolerances import deviation


@pytest.mark.parametrize(
    ("length", "f", "m"),
    [
        ("0.5", "0.05", "0.1"),
        ("3", "0.05", "0.1"),
        ("3.1", "0.05", "0.1"),
        ("6.001", "0.1", "0.2"),
        ("30", "0.1", "0.2"),
        ("120", "0.15", "0.3"),
        ("120.1", "0.2", "0.5"),
        ("400", "0.2", "0.5"),
        ("482", "0.3", "0.8"),
        ("1000", "0.3", "0.8"),
        ("1500", "0.5", "1.2"),
    ],
)
def test_a_bound_belongs_to_the_range_below_it(length: str, f: str, m: str) -> None:
    """120 is still 30 to 120, 120.1 is not: published ranges of ISO 2768-1 (1989), table 1."""
    assert deviation(Fraction(length), "f") == Fraction(f)
    assert deviation(Fraction(length), "m") == Fraction(m)


def test_where_the_table_ends_there_is_no_tolerance() -> None:
    """Below 0.5 mm and above 2000 mm it has to be written beside the dimension."""
    assert deviation(Fraction("0.49"), "m") is None
    assert deviation(Fraction(2001), "m") is None


def test_a_class_that_is_not_in_the_table_is_refused() -> None:
    """No tolerance is made up for it."""
    with pytest.raises(KeyError):
        deviation(Fraction(100), "x")
