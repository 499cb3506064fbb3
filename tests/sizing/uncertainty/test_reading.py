"""How sure one measured length is."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import sqrt

import pytest

from sizing.measures import Length, Measure, MeasuredWith, Request, Tape
from sizing.uncertainty.reading import reading, readings
from sizing.workshop import Figures

LONG = Fraction(482)


def test_one_reading_near_482(figures: Figures) -> None:
    """Class II from the hook, millimetres, landmark 0.5: 0.705; class I 0.60, class III 0.95."""
    for tape, expected in ((Tape.II, 0.705), (Tape.I, 0.602), (Tape.III, 0.947)):
        found = reading(Length((LONG,)), MeasuredWith(tape), figures).uncertainty
        assert found == pytest.approx(expected, abs=0.002)


def test_a_second_reading_halves_all_but_the_tape(figures: Figures) -> None:
    """Landmark and step shrink with the root of the number, the tape stays as it is."""
    once = reading(Length((LONG,)), MeasuredWith(Tape.II), figures)
    twice = reading(Length((LONG, LONG)), MeasuredWith(Tape.II), figures)
    many = reading(Length((LONG,) * 20), MeasuredWith(Tape.II), figures)
    assert twice == once.once_more()
    assert twice.uncertainty == pytest.approx(sqrt(0.49 / 3 + (1 / 12 + 0.25) / 2))
    assert 0.7 / sqrt(3) < many.uncertainty < twice.uncertainty < once.uncertainty


def test_the_persons_own_doubt_stands_for_the_step(figures: Figures) -> None:
    """± half a step says what the step says; ± 2 mm says more."""
    with_ = MeasuredWith(Tape.II)
    plain = reading(Length((LONG,)), with_, figures).uncertainty
    half = reading(Length((LONG,), plus_minus=Fraction(1, 2)), with_, figures).uncertainty
    wide = reading(Length((LONG,), plus_minus=Fraction(2)), with_, figures).uncertainty
    assert half == pytest.approx(plain)
    assert wide == pytest.approx(sqrt(0.49 / 3 + 0.25 + 4 / 3))


def test_a_length_has_its_own_step_before_that_of_all(figures: Figures) -> None:
    """What was typed for this measure goes before what the rest was measured with."""
    fine = reading(Length((LONG,), step=Fraction(1, 2)), MeasuredWith(Tape.II), figures)
    coarse = reading(Length((LONG,)), MeasuredWith(Tape.II, Fraction(10)), figures)
    assert fine.each == pytest.approx(sqrt(0.25 / 12 + 0.25))
    assert coarse.each == pytest.approx(sqrt(100 / 12 + 0.25))


def test_only_what_was_measured_has_a_reading(
    make: Callable[..., Request], figures: Figures
) -> None:
    """What is missing has none, and nor has a space of exactly nothing."""
    found = readings(make(comb_thickness=None, below_space=0), figures)
    assert Measure.SIDE_TO_SIDE in found
    assert Measure.COMB_THICKNESS not in found
    assert Measure.BELOW_SPACE not in found
