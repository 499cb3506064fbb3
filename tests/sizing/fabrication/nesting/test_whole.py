"""Lengths become whole numbers without any rounding."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.fabrication.nesting.whole import parts_in_a_mm

LENGTHS = st.lists(st.fractions(1, 2000, max_denominator=64), min_size=1)


@pytest.mark.parametrize(
    ("lengths", "parts"), [(["10"], 1), (["0.5", "0.2"], 10), (["14351/40", "1/3"], 120)]
)
def test_by_hand(lengths: list[str], parts: int) -> None:
    """Tenths and halves are tenths; inches and thirds a hundred and twentieth."""
    assert parts_in_a_mm(map(Fraction, lengths)) == parts


@given(LENGTHS)
def test_every_length_is_whole_and_no_coarser_part_does(lengths: list[Fraction]) -> None:
    """Divided by any prime, some length would no longer be whole."""
    parts = parts_in_a_mm(lengths)
    assert all((length * parts).denominator == 1 for length in lengths)
    for prime in (2, 3, 5, 7, 11, 13):
        if parts % prime == 0:
            coarser = parts // prime
            assert any((length * coarser).denominator > 1 for length in lengths)
