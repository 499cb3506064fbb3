"""Which units a number fits."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from conversations.answers.fitting import (
    bare_symbols,
    distinct,
    fitting,
    option,
    propose,
    step_of,
    take,
)
from conversations.answers.numbers import Amount
from conversations.answers.outcome import Outcome
from conversations.answers.units import BARE, Symbol
from sizing.plausibility.ranges import Band

Typed = Callable[[str], Amount]


@pytest.mark.parametrize(
    ("number", "units"), [("363", ["mm"]), ("36.3", ["cm"]), ("18", ["cm", "in"]), ("3", [])]
)
def test_every_unit_in_which_a_number_is_usual_is_found(
    frame_band: Band, number: str, units: list[str]
) -> None:
    """A number fits a unit where its length lies in the usual band."""
    assert [each.unit for each in fitting(Fraction(number), BARE, frame_band)] == units


def test_centimetres_and_millimetres_never_both_fit_a_frame(frame_band: Band) -> None:
    """A band whose ends differ less than tenfold tells the two apart for every number."""
    for tenths in range(1, 8000):
        fits = fitting(Fraction(tenths, 10), (Symbol.MM, Symbol.CM), frame_band)
        assert len(fits) <= 1


def test_a_length_is_offered_once(frame_band: Band) -> None:
    """Two units that give the same length are one option, the first."""
    same = [option(Fraction(363), Symbol.MM), option(Fraction("36.3"), Symbol.CM)]
    assert distinct(same) == same[:1]


def test_bare_fractions_are_inches_and_metres_are_under_one(typed: Typed) -> None:
    """363 is no metres, 0.363 may be, 7/8 is inches and nothing else."""
    assert Symbol.M not in bare_symbols(typed("363"))
    assert Symbol.M in bare_symbols(typed("0.363"))
    assert bare_symbols(typed("7/8")) == (Symbol.IN,)


@pytest.mark.parametrize(
    ("text", "symbol", "step"),
    [("36", Symbol.CM, "10"), ("36.3", Symbol.CM, "1"), ("363", Symbol.MM, "1"),
     ("14 1/8", Symbol.IN, "3.175"), ("14 1/2", Symbol.IN, "12.7"), ("14.5", Symbol.IN, "12.7"),
     ("14.50", Symbol.IN, "0.254"), ("14.25", Symbol.IN, "0.254"), ("0.36", Symbol.M, "10")],
)  # fmt: skip
def test_the_step_is_what_was_written_down(
    typed: Typed, text: str, symbol: Symbol, step: str
) -> None:
    """The resolution is that of the last digit or the denominator; .5 inch is a half inch."""
    amount = typed(text)
    assert step_of(amount, option(amount.value, symbol)) == Fraction(step)


@pytest.mark.parametrize(
    ("text", "symbol", "exact"),
    [("36", Symbol.CM, False), ("36.0", Symbol.CM, True), ("14 1/2", Symbol.IN, False),
     ("14 1/4", Symbol.IN, True), ("363", Symbol.MM, True)],
)  # fmt: skip
def test_ten_millimetres_or_coarser_is_not_exact(
    typed: Typed, text: str, symbol: Symbol, exact: bool
) -> None:
    """Whole centimetres and half inches are taken with the precision question to follow."""
    amount = typed(text)
    assert take(amount, option(amount.value, symbol)).exact is exact


def test_a_doubtful_amount_is_never_taken(typed: Typed) -> None:
    """Whatever fits, a doubtful form is only proposed."""
    amount = replace(typed("363"), doubtful=True)
    assert take(amount, option(amount.value, Symbol.MM)).outcome is Outcome.PROPOSE


def test_a_proposal_offers_itself_or_the_alternatives(typed: Typed) -> None:
    """What is proposed stands among the options."""
    amount = typed("18")
    inches, centimetres = option(amount.value, Symbol.IN), option(amount.value, Symbol.CM)
    assert propose(inches, amount).options == (inches,)
    assert propose(inches, amount, [centimetres, inches]).options == (centimetres, inches)
