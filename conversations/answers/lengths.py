"""Reading one amount as a length: taken only where one understanding fits the usual band.

A bare number is every unit in which it is usual, a bare fraction is inches. What does not
fit as typed is tried in the other units and with its decimal mark moved, and then only
proposed.
"""

from __future__ import annotations

from fractions import Fraction

from conversations.answers.fitting import (
    bare_symbols,
    distinct,
    fitting,
    option,
    propose,
    take,
)
from conversations.answers.numbers import DENOMINATORS, Amount, Form
from conversations.answers.outcome import Option, Outcome, Reading, Reason, ask
from conversations.answers.units import BARE, METRIC, Symbol, Unit
from sizing.plausibility.ranges import Band

__all__ = ["read_length"]

_METRIC_BARE = (Symbol.MM, Symbol.CM)
_FINEST_PLACES = 3
"""Decimals of a millimetre that never come from a tape: two numbers with a comma between."""
_ARGUABLE = 4
"""So many times out of reach and nobody means it."""
_NEAR = Fraction(4, 3)
"""Two numbers at a slash that lie this close may be two readings: 7/8, but not 3/8."""


def read_length(amount: Amount, band: Band, usual_unit: Unit | None) -> Reading:
    """What one amount means where `band` is usual."""
    if amount.value == 0 and not amount.ends:
        return _zero(band)
    if amount.ends is not None and amount.symbol is None and _two_lengths(amount, band, usual_unit):
        return ask(Reason.TWO_READINGS)
    if amount.splits:
        return _run_together(amount, band)
    if amount.odd:
        return ask(Reason.ODD_FRACTION)
    if amount.symbol is not None:
        return _with_unit(amount, amount.symbol, band)
    if amount.form is Form.FRACTION:
        return _bare_fraction(amount, band)
    return _bare(amount, band, usual_unit)


def _zero(band: Band) -> Reading:
    """Nothing at all: a distance may be 0, wood may not."""
    nothing = option(Fraction(0), Symbol.MM)
    if not band.possible(nothing.value):
        return ask(Reason.NOT_POSSIBLE)
    usual = band.usual(nothing.value)
    return Reading(
        Outcome.TAKE if usual else Outcome.PROPOSE, (nothing.value,),
        exact=True if usual else None, options=() if usual else (nothing,),
        unit=Unit.MM, step=Symbol.MM.size,
    )  # fmt: skip


def _two_lengths(amount: Amount, band: Band, usual_unit: Unit | None) -> bool:
    """Whether the numbers at the slash are two readings of one length: 362/364."""
    assert amount.ends is not None
    first, second = amount.ends
    fits = [
        symbol
        for symbol in BARE
        if band.usual(first * symbol.size) and band.usual(second * symbol.size)
    ]
    if second not in DENOMINATORS or first >= second:
        return bool(fits)
    # a fraction of an inch as well: whole centimetres side by side are not meant
    return Symbol.MM in fits and usual_unit is not Unit.IN and second <= first * _NEAR


def _run_together(amount: Amount, band: Band) -> Reading:
    """A numerator as big as its denominator: 141/8 is 17 5/8, or 14 1/8 without its space."""
    fits = distinct(
        option(value, Symbol.IN)
        for value in (*amount.splits, amount.value)
        if band.usual(value * Symbol.IN.size)
    )
    if not fits:
        return ask(Reason.ODD_FRACTION)
    if len(fits) > 1:
        return ask(Reason.WHICH_FRACTION, tuple(fits))
    return propose(fits[0], amount)


def _with_unit(amount: Amount, symbol: Symbol, band: Band) -> Reading:
    literals = [amount.value]
    if amount.thousands is not None:
        literals.append(amount.thousands)
    typed = option(amount.value, symbol)
    if band.usual(typed.value):
        return _usual(amount, symbol, typed, band)
    if symbol is Symbol.FT or amount.torn:
        others = [Symbol.IN]
    else:
        others = [each for each in BARE if each is not symbol]
        if amount.value < 1:
            others.append(Symbol.M)
    fits = distinct(each for number in literals for each in fitting(number, others, band))
    possible = [
        each for each in (option(number, symbol) for number in literals)
        if band.possible(each.value)
    ]  # fmt: skip
    if not possible and symbol in METRIC:
        fits = distinct((*fits, *_mark_moved(amount, (symbol,), band)))
    fits = distinct((*possible, *fits))
    if len(fits) == 1:
        return propose(fits[0], amount)
    if fits:
        return ask(Reason.WHICH_UNIT, tuple(fits))
    return _out_of_reach(option(literals[-1], symbol), band)


def _usual(amount: Amount, symbol: Symbol, typed: Option, band: Band) -> Reading:
    """Typed with its unit and usual: taken, unless the form speaks against the unit."""
    if symbol is Symbol.MM and amount.places >= _FINEST_PLACES:
        return ask(Reason.TWO_READINGS)
    inches = fitting(amount.value, (Symbol.IN,), band)
    if inches and amount.torn:
        return ask(Reason.WHICH_UNIT, (typed, *inches))
    if inches and amount.form is Form.FRACTION and symbol in METRIC:
        # eighths of a centimetre stand on no tape; half centimetres are said
        if amount.value.denominator > 2:
            return propose(inches[0], amount)
        return ask(Reason.WHICH_UNIT, (typed, *inches))
    if amount.torn:
        return propose(typed, amount)
    return take(amount, typed)


def _bare_fraction(amount: Amount, band: Band) -> Reading:
    typed = option(amount.value, Symbol.IN)
    if band.usual(typed.value):
        return take(amount, typed)
    fits = fitting(amount.value, _METRIC_BARE, band)
    if band.possible(typed.value):
        fits = distinct((typed, *fits))
    if len(fits) == 1:
        return propose(fits[0], amount)
    if fits:
        return ask(Reason.WHICH_UNIT, tuple(fits))
    return _out_of_reach(typed, band)


def _out_of_reach(typed: Option, band: Band) -> Reading:
    """Beyond what can be; the option stays for who measured again and insists."""
    reason = Reason.TOO_BIG if typed.value > band.hard_high else Reason.TOO_SMALL
    arguable = band.hard_low / _ARGUABLE <= typed.value <= band.hard_high * _ARGUABLE
    return ask(reason, (typed,) if arguable else ())


def _bare(amount: Amount, band: Band, usual_unit: Unit | None) -> Reading:
    symbols = bare_symbols(amount)
    fits = fitting(amount.value, symbols, band)
    if len(fits) == 1:
        if fits[0].unit is Unit.MM and amount.places >= _FINEST_PLACES:
            return ask(Reason.TWO_READINGS)
        return take(amount, fits[0])
    if fits:
        for each in fits:
            if each.unit is usual_unit:
                return propose(each, amount, options=fits)
        return ask(Reason.WHICH_UNIT, tuple(fits))
    return _bare_unusual(amount, band)


def _bare_unusual(amount: Amount, band: Band) -> Reading:
    """A bare number that is usual in no unit: a lost or moved decimal mark, or a rare size."""
    moved = _mark_moved(amount, _METRIC_BARE, band)
    if amount.form is Form.DECIMAL and moved:
        return ask(Reason.WHICH_NUMBER, tuple(moved))
    lost = distinct(fitting(amount.value / 10, _METRIC_BARE, band))
    if len(lost) == 1:
        return propose(lost[0], amount)
    possible = distinct(
        option(amount.value, symbol) for symbol in BARE if band.possible(amount.value * symbol.size)
    )
    if len(possible) == 1:
        return propose(possible[0], amount)
    if possible:
        return ask(Reason.WHICH_UNIT, tuple(possible))
    numbers = [amount.value] if amount.thousands is None else [amount.value, amount.thousands]
    if moved:
        return ask(Reason.WHICH_NUMBER, tuple(moved))
    if min(numbers) > band.hard_high:
        return _out_of_reach(option(min(numbers), Symbol.MM), band)
    if max(numbers) * Symbol.IN.size < band.hard_low:
        return _out_of_reach(option(max(numbers), Symbol.IN), band)
    return ask(Reason.WHICH_NUMBER)


def _mark_moved(amount: Amount, symbols: tuple[Symbol, ...], band: Band) -> list[Option]:
    """Usual lengths with the decimal mark elsewhere: in another place, or lost.

    Every unit is offered, also where two give the same length: 36.3 cm and 363 mm read
    differently to who typed 3.63.
    """
    factors = [Fraction(1, 10), Fraction(10)]
    if amount.places > 1:
        factors += [Fraction(10**place) for place in range(2, amount.places + 1)]
    return [
        option(amount.value * factor, symbol)
        for factor in factors
        for symbol in symbols
        if band.usual(amount.value * factor * symbol.size)
    ]
