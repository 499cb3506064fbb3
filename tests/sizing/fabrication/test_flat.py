"""Outlines of flat parts."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon  # type: ignore[import-untyped]

from sizing.fabrication.flat import Part, Pattern, cross, rectangle

LENGTH = st.integers(0, 400).map(lambda tenths: Fraction(tenths, 10))


@given(LENGTH, LENGTH, LENGTH, LENGTH)
def test_a_cross_is_its_two_rectangles(
    left: Fraction, wide: Fraction, low: Fraction, high: Fraction
) -> None:
    """Whatever the arms, the outline is simple, turns at each corner and encloses both."""
    wide, high = wide + 1, high + 1
    right, top = left + wide, low + high
    width, height = right + left, top + low
    outline = cross((left, right, height), (low, top, width))
    shape = Polygon([(float(x), float(y)) for x, y in outline])
    assert shape.is_valid
    assert shape.exterior.is_ccw
    assert shape.area == pytest.approx(float(wide * height + width * high - wide * high))
    for i, (x, y) in enumerate(outline):
        before, after = outline[i - 1], outline[(i + 1) % len(outline)]
        assert (x, y) not in (before, after)
        assert (x - before[0]) * (after[1] - y) != (y - before[1]) * (after[0] - x)


def test_the_blank_is_the_extent_of_the_outline() -> None:
    """Width and height of a pattern are those of its rectangle."""
    pattern = Pattern(Part.LID, 1, Fraction(1), rectangle(Fraction(30), Fraction(20)))
    assert pattern.width == 30
    assert pattern.height == 20
