"""Wire by gauge number."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from sizing.gauges import gauge


def test_a_number_means_something_only_in_its_series() -> None:
    """14 is another wire in each."""
    assert gauge("AWG 14") == Fraction("1.6277")
    assert gauge("SWG 14") == Fraction("2.032")


@pytest.mark.parametrize("name", ["14", "", "AWG", "AWG x", "AWG -3", "AWG 41", "SWG 13", "BWG 14",
                                  "AWG  14", "awg 14", "AWG ١٤"])  # fmt: skip
def test_a_name_that_is_not_known_means_nothing(name: str) -> None:
    """It is not taken for another."""
    assert gauge(name) is None


def test_a_higher_number_is_a_thinner_wire() -> None:
    """Step by step, and six numbers about halve it."""
    row = [gauge(f"AWG {number}") for number in range(41)]
    assert all(a > b for a, b in pairwise(row) if a and b)
    assert len([one for one in row if one]) == 41
    assert abs(row[6] / row[0] - Fraction(1, 2)) < Fraction(1, 100)  # type: ignore[operator]
