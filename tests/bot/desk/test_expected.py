"""What an answer is expected to be."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bot.desk.expected import NEAR, Expected, expected, known_frame
from sizing.measures import Measure
from sizing.plausibility.ranges import band
from sizing.standards import FrameKind, frame_kinds


@pytest.mark.parametrize(
    ("value", "apart"), [(18, -2), (20, 0), (25, 0), (30, 0), (Fraction(61, 2), Fraction(1, 2))]
)
def test_how_far_an_answer_is_from_what_is_expected(value: Fraction, apart: Fraction) -> None:
    """Nothing inside the band; outside it from the nearer end, with its sign."""
    usual = Expected(Fraction(20), Fraction(30), None)
    assert usual.apart(Fraction(value)) == apart


def test_a_known_frame_is_expected_as_it_is() -> None:
    """Every figure of it that is asked for, by its name; the rest is what is usual."""
    known = known_frame("pl_wielkopolska", 0)
    assert known is not None
    assert expected("side_to_side", known) == Expected(Fraction(360), Fraction(360), known.name)
    usual = band(Measure.COMB_THICKNESS)
    assert expected("comb_thickness", known) == Expected(usual.soft_low, usual.soft_high, None)


@pytest.mark.parametrize("kind", frame_kinds(), ids=lambda kind: kind.id)
def test_a_frame_that_is_like_none_is_expected_as_any(kind: FrameKind) -> None:
    """Too far from every known frame, only the usual bands are left."""
    assert known_frame(kind.id, NEAR) is kind
    assert known_frame(kind.id, NEAR + 0.1) is None
    found = expected("side_to_side", None)
    assert found is not None
    assert found.kind is None


@pytest.mark.parametrize("measure", list(Measure))
def test_every_measure_has_an_expectation(measure: Measure) -> None:
    """From the bands of the workshop, where nothing better is known."""
    found = expected(measure, None)
    assert found is not None
    assert found.low < found.high


@pytest.mark.parametrize("question", ["purpose", "frame_name", "contact", "nonsense"])
def test_what_is_no_measure_has_none(question: str) -> None:
    """Words and choices are not compared."""
    assert expected(question, known_frame("pl_wielkopolska", 0)) is None
