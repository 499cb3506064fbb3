"""How sure a cut length is."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.uncertainty.making import cut


def test_a_cut_is_anywhere_within_its_tolerance() -> None:
    """Rectangular: over √3, by class and size."""
    assert cut("m", Fraction(370)) == pytest.approx(0.5 / 3**0.5)
    assert cut("f", Fraction(391)) == pytest.approx(0.2 / 3**0.5)
    assert cut("f", Fraction("400.1")) == pytest.approx(0.3 / 3**0.5)


@pytest.mark.parametrize("size", ["0.4", "2000.1"])
def test_what_the_table_does_not_have_is_refused(size: str) -> None:
    """No tolerance is made up."""
    with pytest.raises(ValueError, match=r"/10|2/5"):
        cut("m", Fraction(size))
    with pytest.raises(KeyError):
        cut("x", Fraction(100))
