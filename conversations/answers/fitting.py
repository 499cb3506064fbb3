"""Which units a number fits: the ways to understand one amount within a band."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from conversations.answers.numbers import Amount, Form
from conversations.answers.outcome import Option, Outcome, Reading
from conversations.answers.show import written
from conversations.answers.units import BARE, Symbol
from sizing.plausibility.ranges import Band
from sizing.units import Mm

__all__ = ["bare_symbols", "distinct", "fitting", "option", "propose", "step_of", "take"]

PRECISION = 10
"""A resolution [mm] from which on the precision question is asked."""


def option(number: Fraction, symbol: Symbol) -> Option:
    """`number` of the unit `symbol` as something to offer."""
    value = number * symbol.size
    return Option(value, written(value, symbol.unit), symbol.unit)


def bare_symbols(amount: Amount) -> tuple[Symbol, ...]:
    """What an amount without a unit may be: a fraction is inches, metres are under one."""
    if amount.form is Form.FRACTION:
        return (Symbol.IN,)
    if amount.value < 1:
        return (*BARE, Symbol.M)
    return BARE


def fitting(number: Fraction, symbols: Iterable[Symbol], band: Band) -> list[Option]:
    """The units of `symbols` in which `number` is usual, each length once."""
    return distinct(
        option(number, symbol) for symbol in symbols if band.usual(number * symbol.size)
    )


def distinct(options: Iterable[Option]) -> list[Option]:
    """The options without those that give a length a second time."""
    first: dict[Mm, Option] = {}
    for each in options:
        first.setdefault(each.value, each)
    return list(first.values())


def step_of(amount: Amount, chosen: Option) -> Mm:
    """The resolution of what was typed [mm], understood as `chosen`.

    An inch decimal .5 is a half inch: whoever reads tenths of an inch would have a fraction.
    """
    one = chosen.value / amount.value
    if one == Symbol.IN.size and amount.places == 1 and amount.value % 1 == Fraction(1, 2):
        return one / 2
    return amount.step * one


def take(amount: Amount, chosen: Option) -> Reading:
    """The amount as taken, or proposed where its form is doubtful."""
    if amount.doubtful:
        return propose(chosen, amount)
    step = step_of(amount, chosen)
    return Reading(
        Outcome.TAKE, (chosen.value,), exact=step < PRECISION, unit=chosen.unit, step=step
    )


def propose(chosen: Option, amount: Amount, options: Sequence[Option] = ()) -> Reading:
    """One understanding to be shown for a yes; the others, if any, are offered beside it."""
    return Reading(
        Outcome.PROPOSE, (chosen.value,), options=tuple(options) or (chosen,),
        unit=chosen.unit, step=step_of(amount, chosen),
    )  # fmt: skip
