"""Remarks for the desk: rounding, kinds nearly met, earlier orders."""

from __future__ import annotations

from fractions import Fraction

import pytest

from sizing.measures import Measure
from sizing.plausibility.customs import (
    CUSTOMS,
    all_rounded,
    differs_from_before,
    near_known,
    remarks,
)
from sizing.plausibility.findings import Severity
from sizing.standards import frame_kinds

S, H, L = Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG
A, R, D = Measure.INSIDE_ALONG, Measure.LUG_ROOM, Measure.LEDGE_DOWN


def frame(side: int, height: int, bar: int) -> dict[Measure, Fraction]:
    """Three lengths of a frame."""
    return {S: Fraction(side), H: Fraction(height), L: Fraction(bar)}


def test_a_known_frame_with_one_other_length_is_remarked_on() -> None:
    """360 × 391 belongs to a height of 260; 243 is seen, 257 … 263 expected."""
    (found,) = near_known(frame(360, 243, 391))
    assert (found.code, found.measures, found.seen) == ("near-known", (H,), Fraction(243))
    assert found.expected == (Fraction(257), Fraction(263))


@pytest.mark.parametrize(
    "lengths", [frame(360, 260, 391), frame(361, 262, 390), frame(333, 251, 360)]
)
def test_a_known_frame_and_one_of_no_kind_are_not(lengths: dict[Measure, Fraction]) -> None:
    """A kind that is met in all three, or in none, says nothing."""
    assert list(near_known(lengths)) == []


def test_no_frame_in_the_data_is_remarked_on() -> None:
    """Every row meets itself."""
    for kind in frame_kinds():
        lengths = {m: value for m in (S, H, L) if (value := kind.value(m)) is not None}
        assert list(near_known(lengths)) == [], kind.id


def test_all_lengths_on_fives_are_remarked_on() -> None:
    """Six long lengths that all end in 0 or 5 are more than chance."""
    round_ones = frame(360, 260, 390) | {A: Fraction(375), R: Fraction(395), D: Fraction(255)}
    (found,) = all_rounded(round_ones)
    assert (found.seen, found.expected) == (Fraction(6), (None, Fraction(4)))
    assert list(all_rounded(round_ones | {L: Fraction(391)})) == []
    assert list(all_rounded(frame(360, 260, 390))) == []


def test_one_length_other_than_before_is_remarked_on() -> None:
    """The same frame in another order: one length differs, the others do not."""
    earlier = frame(352, 247, 383)
    (found,) = differs_from_before(frame(353, 274, 382), earlier)
    assert (found.measures, found.seen) == ((H,), Fraction(274))
    assert found.expected == (Fraction(244), Fraction(250))
    assert list(differs_from_before(frame(353, 248, 382), earlier)) == []
    assert list(differs_from_before(frame(448, 232, 480), earlier)) == []


def test_remarks_are_notes_of_every_custom() -> None:
    """Nobody is asked because of one, and none is left out."""
    found = remarks(frame(360, 240, 391) | {A: Fraction(375), R: Fraction(395), D: Fraction(255)})
    assert [one.severity for one in found] == [Severity.NOTE]
    everything = frame(360, 240, 390) | {A: Fraction(375), R: Fraction(395), D: Fraction(255)}
    assert len(remarks(everything)) == len(CUSTOMS)
