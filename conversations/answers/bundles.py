"""Several numbers in one answer: "435x300", "435 300 25".

They are proposed for the question asked and the ones after it, in asked order, only if every
value finds its own question: usual there, all bare ones in the same unit. A question whose
band a value does not fit is skipped. Never taken without a yes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from conversations.answers.fitting import bare_symbols, option, step_of
from conversations.answers.numbers import Amount, Form
from conversations.answers.outcome import Outcome, Reading, Reason, ask
from conversations.answers.units import Symbol, Unit
from sizing.measures import Measure
from sizing.plausibility.ranges import band
from sizing.units import Mm

__all__ = ["ASKED_ORDER", "after", "read_bundle"]

ASKED_ORDER: tuple[Measure, ...] = (
    Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG, Measure.LUG_THICKNESS,
    Measure.WIDEST_WOOD, Measure.COMB_THICKNESS, Measure.INSIDE_ALONG, Measure.LUG_ROOM,
    Measure.LEDGE_DOWN, Measure.LEDGE_UP,
)  # fmt: skip


def after(measure: Measure) -> tuple[Measure, ...]:
    """The lengths usually asked after `measure`."""
    if measure not in ASKED_ORDER:
        return ()
    return ASKED_ORDER[ASKED_ORDER.index(measure) + 1 :]


def read_bundle(
    amounts: Sequence[Amount], questions: Sequence[Measure], usual_unit: Unit | None
) -> Reading | None:
    """The amounts as answers to `questions`, the first being asked; None where they are none."""
    if any(amount.odd for amount in amounts):
        return None
    amounts = _with_common_unit(amounts)
    found: dict[tuple[Mm, ...], Reading] = {}
    for symbol in _common_symbols(amounts):
        reading = _in_unit(amounts, questions, symbol)
        if reading is not None:
            found.setdefault(reading.values, reading)
    if len(found) == 1:
        return next(iter(found.values()))
    for reading in found.values():
        if reading.unit is usual_unit:
            return reading
    firsts = [reading.options[0] for reading in found.values()]
    return ask(Reason.WHICH_UNIT, tuple(firsts)) if firsts else None


def _with_common_unit(amounts: Sequence[Amount]) -> list[Amount]:
    """A single unit typed anywhere holds for all: `43,5 x 30 cm`."""
    symbols = {amount.symbol for amount in amounts if amount.symbol is not None}
    if len(symbols) != 1:
        return list(amounts)
    (symbol,) = symbols
    return [replace(amount, symbol=symbol) for amount in amounts]


def _common_symbols(amounts: Iterable[Amount]) -> list[Symbol | None]:
    """The units all bare amounts may share; None alone where every amount has its own."""
    bare = [amount for amount in amounts if amount.symbol is None]
    if not bare:
        return [None]
    if any(amount.form is Form.FRACTION for amount in bare):
        return [Symbol.IN]
    return [symbol for symbol in Symbol if all(symbol in bare_symbols(each) for each in bare)]


def _in_unit(
    amounts: Sequence[Amount], questions: Sequence[Measure], symbol: Symbol | None
) -> Reading | None:
    typed = [amount.symbol or symbol for amount in amounts]
    pairs = [(amount, unit) for amount, unit in zip(amounts, typed, strict=True) if unit]
    assert len(pairs) == len(amounts), "a unit is given for every bare amount"
    # most readings end here: what nobody will be shown is not written out
    measures = _placed([amount.value * unit.size for amount, unit in pairs], questions)
    if measures is None:
        return None
    options = [option(amount.value, unit) for amount, unit in pairs]
    steps = [
        step_of(amount, each) for amount, each in zip(amounts, options, strict=True) if amount.value
    ]
    return Reading(
        Outcome.PROPOSE, tuple(each.value for each in options), options=tuple(options),
        unit=options[0].unit,
        # one hand, one ruler: who writes 39.1 beside 36 reads millimetres
        step=min(steps, default=None), measures=measures,
    )  # fmt: skip


def _placed(values: Sequence[Fraction], questions: Sequence[Measure]) -> tuple[Measure, ...] | None:
    """The question of each value, in asked order; the first value answers the first question."""
    if not questions or not band(questions[0]).usual(values[0]):
        return None
    placed = [questions[0]]
    waiting = iter(questions[1:])
    for value in values[1:]:
        measure = next((each for each in waiting if band(each).usual(value)), None)
        if measure is None:
            return None
        placed.append(measure)
    return tuple(placed)
