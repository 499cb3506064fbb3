"""The words of the trade."""

from __future__ import annotations

from dataclasses import fields
from fractions import Fraction

import pytest

from sizing.measures import COUNTS, FRAME_LENGTHS, HIVE_LENGTHS, Frame, Hive, Length, Measure


def test_several_readings_count_as_their_mean() -> None:
    """The accepted reading is the exact mean."""
    assert Length((Fraction(393), Fraction(787, 2))).value == Fraction(1573, 4)


def test_every_measure_is_asked_of_frame_or_hive_or_counted() -> None:
    """Lengths and counts together are all measures, and none is both."""
    together = (*FRAME_LENGTHS, *HIVE_LENGTHS, *COUNTS)
    assert sorted(together) == sorted(Measure)


@pytest.mark.parametrize(("kind", "lengths"), [(Frame, FRAME_LENGTHS), (Hive, HIVE_LENGTHS)])
def test_measures_bear_the_names_of_the_fields(kind: type, lengths: tuple[Measure, ...]) -> None:
    """A measure is a field of the frame or of the hive, by the same name."""
    assert set(lengths) <= {field.name for field in fields(kind)}
