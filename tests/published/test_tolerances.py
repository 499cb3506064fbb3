"""General tolerances of a cut, against what is in print."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.tolerances import deviation

ISO_2768 = "ISO 2768-1: General tolerances (1989), table sheet as reprinted"
GB_1804 = "GB/T 1804-m in the title block of a published conveyor drawing (undated)"
CUTS = [
    ("m", "6", "0.1", GB_1804, "published"),
    ("m", "30", "0.2", GB_1804, "published"),
    ("m", "120", "0.3", GB_1804, "published"),
    ("m", "120.1", "0.5", GB_1804, "published"),
    ("m", "400", "0.5", GB_1804, "published"),
    ("m", "482", "0.8", GB_1804, "published"),
    ("m", "1000", "0.8", GB_1804, "published"),
    ("m", "1200", "1.2", GB_1804, "published"),
    ("f", "391", "0.2", ISO_2768, "published"),
    ("f", "482", "0.3", ISO_2768, "published"),
    ("c", "391", "1.2", ISO_2768, "published"),
]


@pytest.mark.parametrize(("grade", "size", "either_way", "source", "known"), CUTS)
def test_what_the_standard_allows_a_cut(
    grade: str, size: str, either_way: str, source: str, known: str
) -> None:
    """A bound belongs to the range that ends with it."""
    assert deviation(Fraction(size), grade) == Fraction(either_way), (source, known)
