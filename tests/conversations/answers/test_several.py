"""Several amounts in one answer."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from conversations.answers.bundles import ASKED_ORDER
from conversations.answers.outcome import Outcome, Reading, Reason
from conversations.answers.several import read_several
from conversations.answers.statement import Statement

State = Callable[[str], Statement]
Several = Callable[[str], Reading]


@pytest.fixture
def several(state: State) -> Several:
    """Reads the amounts of a text for the first question and those after it."""

    def read(text: str) -> Reading:
        stated = state(text)
        return read_several(stated.amounts, stated.joints, ASKED_ORDER, None)

    return read


@pytest.mark.parametrize(
    ("text", "value", "plus_minus", "exact"),
    [("363 ± 1 mm", 363, 1, True), ("363 +/- 1", 363, 1, True), ("36.3 ± 1 mm", 363, 1, True),
     ("36,3 ± 0,2 cm", 363, 2, True), ("363 mm ± 1 cm", 363, 10, False)],
)  # fmt: skip
def test_a_tolerance_is_kept_beside_the_value(
    several: Several, text: str, value: int, plus_minus: int, exact: bool
) -> None:
    """The unit at the end is that of both where it fits; a wide tolerance is not exact."""
    reading = several(text)
    assert reading.outcome is Outcome.TAKE
    assert reading.values == (Fraction(value),)
    assert (reading.plus_minus, reading.exact) == (Fraction(plus_minus), exact)


def test_a_tolerance_wider_than_a_tenth_is_a_guess(several: Several) -> None:
    """363 ± 99 was not read off a tape."""
    assert several("363 ± 99").reason is Reason.HEDGED


@pytest.mark.parametrize("text", ["363 mm (36.3 cm)", "36,3 cm = 363 mm"])
def test_one_length_in_two_units_is_taken_once(several: Several, text: str) -> None:
    """Our own echo, sent back, is the same length."""
    assert (several(text).outcome, several(text).values) == (Outcome.TAKE, (Fraction(363),))


def test_a_rounded_second_unit_does_not_disturb(several: Several) -> None:
    """447.7 mm and 17 5/8 in are one length; the finer figure is taken."""
    assert float(several("447.7 mm (17 5/8 in)").values[0]) == 447.7


@pytest.mark.parametrize(
    "text",
    ["36-37 cm", "363 or 364", "362/364/365", "36 cm 14 in", "360 mm (36.3 cm)", "310 + 68",
     "43, 30", "363 ± 1 or 2", "1 50", "36 , 3 1/2", "363 cm 363 cm", "43,5 x 300"],
)  # fmt: skip
def test_two_readings_are_asked_about(several: Several, text: str) -> None:
    """Ranges, choices, sums and figures that disagree are never settled here."""
    reading = several(text)
    assert (reading.outcome, reading.reason) == (Outcome.ASK, Reason.TWO_READINGS)


@pytest.mark.parametrize(
    ("text", "outcome"),
    [("36 , 3 cm", Outcome.TAKE), ("36 , 3", Outcome.PROPOSE), ("36;3 cm", Outcome.PROPOSE),
     ("36 3", Outcome.PROPOSE), ("3 6 3", Outcome.PROPOSE), ("3 6 3 mm", Outcome.PROPOSE)],
)  # fmt: skip
def test_one_number_in_pieces_is_put_together(
    several: Several, text: str, outcome: Outcome
) -> None:
    """Stray spaces at a comma are ignored; a missed comma and dictated digits are shown."""
    reading = several(text)
    assert (reading.outcome, reading.values) == (outcome, (Fraction(363),))


def test_sizes_in_asked_order_are_proposed_together(several: Several) -> None:
    """435 300 25 are three answers for a yes."""
    reading = several("435 300 25")
    assert (reading.outcome, reading.values) == (
        Outcome.PROPOSE,
        tuple(map(Fraction, (435, 300, 25))),
    )
