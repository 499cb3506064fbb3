"""Several amounts in one answer: one length said in pieces, a tolerance, two readings, a list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from conversations.answers.bundles import read_bundle
from conversations.answers.fitting import PRECISION
from conversations.answers.lengths import read_length
from conversations.answers.numbers import Amount, Form, number
from conversations.answers.outcome import Reading, Reason, ask
from conversations.answers.statement import Joint
from conversations.answers.units import Symbol, Unit
from sizing.measures import Measure
from sizing.plausibility.ranges import Band, band
from sizing.units import Mm

__all__ = ["read_several"]

_ALIKE: Mm = Mm(1, 10)
"""Two figures in different units that differ by less [mm] are the same one, rounded."""
_NEAR = Fraction(11, 10)
"""Two figures in different units that are this close were meant to be the same."""
_WIDEST = Fraction(1, 10)
"""A tolerance beyond this part of the length says that nothing was read off a tape."""
_DECIMALS = 2
"""Decimals at most after a comma with spaces or a semicolon typed for it."""


def read_several(
    amounts: Sequence[Amount],
    joints: Sequence[Joint],
    questions: Sequence[Measure],
    usual_unit: Unit | None,
) -> Reading:
    """What two or more amounts mean; `questions` are the one asked and those after it."""
    asked = band(questions[0])
    if Joint.TOLERANCE in joints:
        if len(amounts) == 2:
            return _with_tolerance(amounts[0], amounts[1], asked, usual_unit)
        return ask(Reason.TWO_READINGS)
    same = _same_length(amounts)
    if same is not None:
        return read_length(same, asked, usual_unit)
    if Joint.EITHER in joints or _nearly_same(amounts):
        return ask(Reason.TWO_READINGS)
    decimal = _read_as_one(_decimal(amounts, joints), asked, usual_unit)
    if decimal is not None and len(amounts[1].text) == 1:
        return decimal
    understood = [
        reading
        for reading in (
            decimal,
            _read_as_one(_dictated(amounts, joints), asked, usual_unit),
            read_bundle(amounts, questions, usual_unit),
        )
        if reading is not None
    ]
    return understood[0] if len(understood) == 1 else ask(Reason.TWO_READINGS)


def _with_tolerance(
    value: Amount, tolerance: Amount, asked: Band, usual_unit: Unit | None
) -> Reading:
    """363 +/- 1 mm: the unit at the end is that of the value too, where it fits."""
    if value.symbol is None and tolerance.symbol is not None:
        same = replace(value, symbol=tolerance.symbol)
        if asked.usual(same.value * tolerance.symbol.size):
            value = same
    reading = read_length(value, asked, usual_unit)
    if reading.unit is None:
        return reading
    symbol = tolerance.symbol or Symbol(reading.unit)
    plus_minus = tolerance.value * symbol.size
    if plus_minus > reading.values[0] * _WIDEST:
        return ask(Reason.HEDGED)
    if reading.exact and plus_minus >= PRECISION:
        reading = replace(reading, exact=False)
    return replace(reading, plus_minus=plus_minus)


def _same_length(amounts: Sequence[Amount]) -> Amount | None:
    """The one length all amounts give in their own units, as first typed: 363 mm (36.3 cm)."""
    lengths = [each.value * each.symbol.size for each in amounts if each.symbol is not None]
    if len(lengths) < len(amounts) or max(lengths) - min(lengths) > _ALIKE:
        return None
    if len({each.symbol for each in amounts}) < len(amounts):
        return None
    return min(amounts, key=lambda each: each.step * (each.symbol or Symbol.MM).size)


def _nearly_same(amounts: Sequence[Amount]) -> bool:
    """Whether one length seems to be given in two units that do not quite agree."""
    if len(amounts) != 2 or None in (symbols := {each.symbol for each in amounts}):
        return False
    low, high = sorted(each.value * (each.symbol or Symbol.MM).size for each in amounts)
    return len(symbols) == 2 and high <= low * _NEAR


def _dictated(amounts: Sequence[Amount], joints: Sequence[Joint]) -> Amount | None:
    """3 6 3: one digit after the other, the unit behind the last."""
    single = all(each.form is Form.WHOLE and len(each.text) == 1 for each in amounts)
    if not single or any(joints) or any(each.symbol for each in amounts[:-1]):
        return None
    joined = number("".join(each.text for each in amounts))
    assert joined is not None
    return replace(joined, symbol=amounts[-1].symbol, doubtful=True)


def _decimal(amounts: Sequence[Amount], joints: Sequence[Joint]) -> Amount | None:
    """`36 , 3 cm`; `36;3 cm` and `36 3 cm`, where the comma was missed, are only proposed."""
    if len(amounts) != 2 or joints[0] not in {Joint.SPACE, Joint.COMMA, Joint.SEMICOLON}:
        return None
    whole, decimals = amounts
    if joints[0] is Joint.SPACE and (len(whole.text), len(decimals.text)) != (2, 1):
        return None
    plain = whole.form is Form.WHOLE and decimals.form is Form.WHOLE and whole.symbol is None
    if not plain or not decimals.text.isdigit() or len(decimals.text) > _DECIMALS:
        return None
    joined = number(f"{whole.text},{decimals.text}")
    assert joined is not None
    doubtful = joints[0] is not Joint.COMMA or whole.doubtful or decimals.symbol is None
    return replace(joined, symbol=decimals.symbol, doubtful=doubtful)


def _read_as_one(amount: Amount | None, asked: Band, usual_unit: Unit | None) -> Reading | None:
    """The amount read as one length, where it can be taken or proposed at all."""
    if amount is None or not any(
        asked.usual(amount.value * each.size)
        for each in ((amount.symbol,) if amount.symbol else Symbol)
    ):
        return None
    return read_length(amount, asked, usual_unit)
