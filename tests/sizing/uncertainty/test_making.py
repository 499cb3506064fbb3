"""What the standard allows a cut."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.uncertainty.making import cut, tolerance


@pytest.mark.parametrize(
    ("grade", "size", "either_way"),
    [
        ("f", 391, "0.2"),
        ("f", 400, "0.2"),
        ("f", "400.1", "0.3"),
        ("m", 12, "0.2"),
        ("m", 120, "0.3"),
        ("m", "120.1", "0.5"),
        ("m", 460, "0.8"),
        ("m", "0.5", "0.1"),
        ("c", 2000, "3"),
    ],
)
def test_the_tolerance_by_size(grade: str, size: str | int, either_way: str) -> None:
    """ISO 2768-1: a range begins above its lower bound and ends on its upper one."""
    assert tolerance(grade, Fraction(size)) == Fraction(either_way)


def test_a_cut_is_anywhere_within_its_tolerance() -> None:
    """Rectangular: over √3."""
    assert cut("m", Fraction(370)) == pytest.approx(0.5 / 3**0.5)


@pytest.mark.parametrize("size", ["0.4", "2000.1"])
def test_what_the_table_does_not_have_is_refused(size: str) -> None:
    """No tolerance is made up."""
    with pytest.raises(ValueError, match=r"/10|2/5"):
        tolerance("m", Fraction(size))
    with pytest.raises(KeyError):
        tolerance("x", Fraction(100))
