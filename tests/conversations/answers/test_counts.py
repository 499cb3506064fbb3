"""Reading a count."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from conversations.answers.counts import read_count, read_counted_words
from conversations.answers.outcome import Outcome, Reason
from conversations.answers.statement import Statement
from conversations.answers.words import Kind
from sizing.plausibility.ranges import Band

State = Callable[[str], Statement]


@pytest.fixture
def places() -> Band:
    """A band like that of the frames in a box."""
    return Band(Fraction(3), Fraction(20), Fraction(1), Fraction(40), "test")


@pytest.mark.parametrize("text", ["10", "10 frames", "10 ramek", "10 szt.", "it's 10"])
def test_a_usual_whole_number_is_taken(state: State, places: Band, text: str) -> None:
    """A whole number with or without what is counted."""
    reading = read_count(state(text), places)
    assert (reading.outcome, reading.values, reading.exact) == (Outcome.TAKE, (Fraction(10),), True)
    assert reading.unit is None


@pytest.mark.parametrize(
    ("text", "value"),
    [("25", 25), ("40", 40), ("2x", 2), ("10?", 10), ("a dozen 1", 12), ("010", 10)],
)
def test_an_unusual_or_doubtful_count_is_proposed(
    state: State, places: Band, text: str, value: int
) -> None:
    """What is rare, or typed oddly, is shown for a yes."""
    reading = read_count(state(text), places)
    assert (reading.outcome, reading.values) == (Outcome.PROPOSE, (Fraction(value),))


@pytest.mark.parametrize(
    ("text", "reason"),
    [("435 mm", Reason.WRONG_QUESTION), ("435", Reason.WRONG_QUESTION),
     ("10,5", Reason.WRONG_QUESTION), ("10 1/2", Reason.WRONG_QUESTION),
     ("0", Reason.NOT_POSSIBLE), ("10-12", Reason.TWO_READINGS), ("10 or 12", Reason.TWO_READINGS),
     ("10 ± 1", Reason.HEDGED), ("about 10", Reason.HEDGED)],
)  # fmt: skip
def test_what_is_no_count_is_asked_with_its_reason(
    state: State, places: Band, text: str, reason: Reason
) -> None:
    """A length answers another question; two numbers and a guess are asked about."""
    reading = read_count(state(text), places)
    assert (reading.outcome, reading.reason) == (Outcome.ASK, reason)


def test_a_pair_and_a_dozen_are_shown_as_numbers(places: Band) -> None:
    """Words for numbers are proposed, and only where the number can be."""
    dozen = read_counted_words(frozenset({Kind.DOZEN}), places)
    assert dozen is not None
    assert (dozen.outcome, dozen.values) == (Outcome.PROPOSE, (Fraction(12),))
    assert read_counted_words(frozenset({Kind.FILLER}), places) is None
