"""What a beekeeper typed, read for one question: an exact length or count, or a question.

Nothing is guessed silently. Only what has exactly one understanding is taken; the likely one
of a doubtful text is proposed; for the rest there is a reason that says what to ask.
The order of the rules: wishes (help, later …) before numbers; inside, outside and lugs before
hedges; hedges before values; several numbers before one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from conversations.answers.bundles import after
from conversations.answers.counts import read_count, read_counted_words
from conversations.answers.identifiers import is_order_number, is_phone_number
from conversations.answers.lengths import read_length
from conversations.answers.outcome import Option, Outcome, Reading, Reason, ask, other
from conversations.answers.several import read_several
from conversations.answers.show import written
from conversations.answers.statement import Statement, statement
from conversations.answers.text import normalise, repair_digits
from conversations.answers.tokens import Sign, Token, tokens
from conversations.answers.units import Unit
from conversations.answers.words import Kind, vocabulary
from sizing.measures import COUNTS, FRAME_LENGTHS, Measure
from sizing.plausibility.ranges import band
from sizing.standards import by_name
from sizing.units import Mm

__all__ = ["LONGEST", "Option", "Outcome", "Reading", "Reason", "Unit", "read"]

LONGEST = 500
"""A longer text is a letter, not a measurement."""

_WISHES = {
    Kind.DONT_KNOW: Reason.DONT_KNOW,
    Kind.REUSE: Reason.REUSE,
    Kind.PERSON: Reason.PERSON,
    Kind.LATER: Reason.LATER,
    Kind.HELP: Reason.HELP,
}
"""In this order, where several are said."""
_WISHES_BESIDE_NUMBERS = (Kind.DONT_KNOW, Kind.REUSE)
_MEASURED_INSIDE = (Measure.INSIDE_ALONG, Measure.INSIDE_ACROSS, Measure.LUG_ROOM)
_SHORTEST_NAME = 3
_MOST_COUNTED = 40
"""More "frames" than this is a length and a word that describes it."""
_TO_THE_MILLIMETRE: Mm = Mm(1)


def read(
    text: str,
    measure: Measure,
    *,
    language: str | None = None,
    usual_unit: Unit | None = None,
    following: Sequence[Measure] = (),
) -> Reading:
    """What `text` means as the answer to `measure`.

    `language` is the one chosen; without it the words of all languages count but the colliding
    ones. `usual_unit` is the unit used earlier in this order. `following` are the measures
    asked after this one, for several numbers in one answer.
    """
    if len(text) > LONGEST:
        return ask(Reason.DIGITS_PLEASE)
    line = _unquoted(normalise(text))
    repaired = repair_digits(line)
    found = tokens(repaired, vocabulary(language))
    stated = statement(found)
    wish = _wish(stated, line)
    if wish is not None:
        return other(wish)
    if not stated.amounts:
        return _without_number(stated, found, measure)
    if repaired != line:
        stated = replace(stated, unknown=True)
    reading = _read_count_or_length(stated, (measure, *(following or after(measure))), usual_unit)
    if not any(token.kind is Sign.UNIT for token in found):
        reading = _unless_identifier(line, reading, stated)
    return _as_said(reading, stated)


def _unquoted(line: str) -> str:
    """The line without quotation marks around the whole: "18" is not 18 inches."""
    if len(line) > 1 and line[0] == line[-1] and line[0] in "\"'":
        return line[1:-1].strip()
    return line


def _wish(stated: Statement, line: str) -> Reason | None:
    if "?" in line and not any(sign.isalnum() for sign in line):
        return Reason.HELP
    for kind, reason in _WISHES.items():
        if kind in stated.said and (kind in _WISHES_BESIDE_NUMBERS or not stated.amounts):
            return reason
    return None


def _without_number(stated: Statement, found: Sequence[Token], measure: Measure) -> Reading:
    if measure in COUNTS:
        counted = read_counted_words(stated.said, band(measure))
        if counted is not None:
            return counted
    name = " ".join(
        token.text
        for token in found
        if token.kind is Sign.UNKNOWN and len(token.text) >= _SHORTEST_NAME
    )
    return ask(Reason.NAMED_SIZE if by_name(name) else Reason.DIGITS_PLEASE)


def _read_count_or_length(
    stated: Statement, questions: Sequence[Measure], usual_unit: Unit | None
) -> Reading:
    measure = questions[0]
    if measure in COUNTS:
        return read_count(stated, band(measure))
    if _other_side(stated, measure):
        return ask(Reason.INSIDE)
    if _other_lugs(stated, measure):
        return ask(Reason.WITHOUT_LUGS)
    if _is_count(stated):
        return ask(Reason.WRONG_QUESTION)
    if Kind.HEDGE in stated.said:
        return ask(Reason.HEDGED)
    if len(stated.amounts) == 1:
        return read_length(stated.amounts[0], band(measure), usual_unit)
    lengths = [each for each in questions if each not in COUNTS]
    return read_several(stated.amounts, stated.joints, lengths, usual_unit)


def _other_side(stated: Statement, measure: Measure) -> bool:
    """Inside is named where outside is asked, or the reverse."""
    if measure in _MEASURED_INSIDE:
        return Kind.OUTSIDE in stated.said
    return measure in FRAME_LENGTHS and Kind.INSIDE in stated.said


def _other_lugs(stated: Statement, measure: Measure) -> bool:
    """The lugs are left out where they count, or counted where they do not."""
    if measure is Measure.LUG_TO_LUG:
        return Kind.WITHOUT_LUGS in stated.said
    return measure is Measure.SIDE_TO_SIDE and Kind.WITH_LUGS in stated.said


def _is_count(stated: Statement) -> bool:
    amount = stated.amounts[0]
    alone = len(stated.amounts) == 1 and amount.symbol is None
    return alone and stated.counted and amount.value <= _MOST_COUNTED


def _unless_identifier(line: str, reading: Reading, stated: Statement) -> Reading:
    """Digits of a telephone or an order number, where they are not sizes in asked order.

    Whether the order is this person's is not known here: the conversation looks for the
    numbers it knows before it asks for a reading.
    """
    several = len(stated.amounts) > 1 and reading.outcome is Outcome.PROPOSE
    if several and not line.startswith("+"):
        return reading
    if is_order_number(line):
        return other(Reason.ORDER_NUMBER)
    return other(Reason.PHONE_NUMBER) if is_phone_number(line) else reading


def _as_said(reading: Reading, stated: Statement) -> Reading:
    """The reading in the light of the words beside the number."""
    if reading.outcome is not Outcome.TAKE:
        return reading
    beside = frozenset(_WISHES) & stated.said
    if stated.unknown or beside or (stated.counted and reading.unit is not None):
        options: tuple[Option, ...] = ()
        if reading.unit is not None:
            value = reading.values[0]
            options = (Option(value, written(value, reading.unit), reading.unit),)
        return replace(reading, outcome=Outcome.PROPOSE, exact=None, options=options)
    if Kind.EXACT in stated.said and reading.step is not None:
        return replace(reading, exact=True, step=min(reading.step, _TO_THE_MILLIMETRE))
    return reading
