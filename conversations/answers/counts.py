"""Reading a count: frames in a box, pieces."""

from __future__ import annotations

from fractions import Fraction
from math import prod

from conversations.answers.numbers import Amount, Form
from conversations.answers.outcome import Outcome, Reading, Reason, ask
from conversations.answers.statement import Joint, Statement
from conversations.answers.words import Kind
from sizing.plausibility.ranges import Band

__all__ = ["read_count", "read_counted_words"]

_WORDS = {Kind.PAIR: Fraction(2), Kind.DOZEN: Fraction(12)}


def read_count(stated: Statement, band: Band) -> Reading:
    """What was stated as a count; a length is the answer to another question."""
    if any(_is_length(amount) for amount in stated.amounts):
        return ask(Reason.WRONG_QUESTION)
    if len(stated.amounts) > 1:
        reason = Reason.TWO_READINGS
        if Joint.TOLERANCE in stated.joints:
            reason = Reason.HEDGED
        return ask(reason)
    if Kind.HEDGE in stated.said:
        return ask(Reason.HEDGED)
    (amount,) = stated.amounts
    dozens = [times for kind, times in _WORDS.items() if kind in stated.said]
    value = amount.value * prod(dozens)
    if value > band.hard_high:
        return ask(Reason.WRONG_QUESTION)
    if not band.possible(value):
        return ask(Reason.NOT_POSSIBLE)
    if band.usual(value) and not (amount.doubtful or stated.unknown or dozens):
        return Reading(Outcome.TAKE, (value,), exact=True)
    return Reading(Outcome.PROPOSE, (value,))


def read_counted_words(said: frozenset[Kind], band: Band) -> Reading | None:
    """A pair, a dozen: shown as a number for a yes."""
    for kind, value in _WORDS.items():
        if kind in said and band.possible(value):
            return Reading(Outcome.PROPOSE, (value,))
    return None


def _is_length(amount: Amount) -> bool:
    return amount.symbol is not None or amount.form is not Form.WHOLE
