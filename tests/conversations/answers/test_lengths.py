"""Reading one amount as a length."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from conversations.answers.lengths import read_length
from conversations.answers.numbers import Amount
from conversations.answers.outcome import Outcome, Reading, Reason
from conversations.answers.units import Unit
from sizing.plausibility.ranges import Band

One = Callable[[str], Amount]


def offered(reading: Reading) -> list[str]:
    """What a reading offers, as written."""
    return [option.written for option in reading.options]


@pytest.mark.parametrize(
    ("text", "value"),
    [("363", 363), ("36.3", 363), ("0.363", 363), ("14 1/4", 361.95), ("9", 228.6),
     ("363 mm", 363), ("0,363 m", 363), ("36 1/2 cm", 365), ("1/2 m", 500), ("36,325", 363.25)],
)  # fmt: skip
def test_what_has_one_usual_understanding_is_taken(
    amount: One, frame_band: Band, text: str, value: float
) -> None:
    """One unit fits, or the unit is typed and fits."""
    reading = read_length(amount(text), frame_band, None)
    assert reading.outcome is Outcome.TAKE
    assert [float(each) for each in reading.values] == [value]


@pytest.mark.parametrize(
    ("text", "proposed"),
    [("363 cm", "363 mm"), ("363 m", "363 mm"), ("36 mm", "36 cm"), ("17'", "17 in"),
     ("3630 mm", "363 mm"), ("3630", "363 mm"), ("3,63 cm", "36.3 cm"), ("0,363 cm", "0.363 m"),
     ("17 5/8 cm", "17 5/8 in"),
     ("36 1/2", "36.5 cm"), ("175/8", "17 5/8 in"), ("520 mm", "520 mm"), ("520", "520 mm"),
     ("52 cm", "52 cm"), ("4 dm", "40 cm"), ("14 дм", "14 in"), ("0363", "363 mm")],
)  # fmt: skip
def test_the_only_likely_understanding_of_a_slip_is_proposed(
    amount: One, frame_band: Band, text: str, proposed: str
) -> None:
    """Another unit, a lost mark or a rare size is shown for a yes."""
    reading = read_length(amount(text), frame_band, None)
    assert reading.outcome is Outcome.PROPOSE
    assert offered(reading) == [proposed]


@pytest.mark.parametrize(
    ("text", "reason", "options"),
    [
        ("18", Reason.WHICH_UNIT, ["18 cm", "18 in"]),
        ("12 cm", Reason.WHICH_UNIT, ["12 cm", "12 in"]),
        ("17 1/2 cm", Reason.WHICH_UNIT, ["17.5 cm", "17 1/2 in"]),
        ("141/8", Reason.WHICH_FRACTION, ["14 1/8 in", "17 5/8 in"]),
        ("3,63", Reason.WHICH_NUMBER, ["36.3 cm", "363 mm"]),
        ("1,250", Reason.WHICH_NUMBER, []),
        ("14 9/8", Reason.ODD_FRACTION, []),
        ("14 3/10", Reason.ODD_FRACTION, []),
        ("1/0", Reason.ODD_FRACTION, []),
        ("9/8", Reason.TWO_READINGS, []),
        ("16/16", Reason.TWO_READINGS, []),
        ("99/2", Reason.ODD_FRACTION, []),
        ("3/7", Reason.ODD_FRACTION, []),
        ("362/364", Reason.TWO_READINGS, []),
        ("363,262", Reason.TWO_READINGS, []),
        ("363,262 mm", Reason.TWO_READINGS, []),
        ("1234", Reason.TOO_BIG, ["1234 mm"]),
        ("1.250 mm", Reason.TOO_BIG, ["1250 mm"]),
        ("3/4", Reason.TOO_SMALL, []),
        ("1 in", Reason.TOO_SMALL, ["1 in"]),
        ("99999 mm", Reason.TOO_BIG, []),
        ("0", Reason.NOT_POSSIBLE, []),
    ],
)
def test_what_cannot_be_settled_is_asked_with_its_reason(
    amount: One, frame_band: Band, text: str, reason: Reason, options: list[str]
) -> None:
    """Each doubt has its reason and offers what it can be."""
    reading = read_length(amount(text), frame_band, None)
    assert (reading.outcome, reading.reason) == (Outcome.ASK, reason)
    assert offered(reading) == options


def test_the_unit_used_before_is_proposed_and_not_taken(amount: One, frame_band: Band) -> None:
    """18 after inches is 18 inches, but only for a yes; the other unit stays on offer."""
    reading = read_length(amount("18"), frame_band, Unit.IN)
    assert reading.outcome is Outcome.PROPOSE
    assert float(reading.values[0]) == 457.2
    assert offered(reading) == ["18 cm", "18 in"]


def test_the_unit_used_before_does_not_make_a_clear_number_doubtful(
    amount: One, frame_band: Band
) -> None:
    """36.3 is centimetres also for who used inches before."""
    assert read_length(amount("36.3"), frame_band, Unit.IN).values == (Fraction(363),)


def test_seven_eighths_may_be_seven_or_eight_millimetres(amount: One, thin_band: Band) -> None:
    """Two numbers side by side at a slash are asked about, unless inches were used before."""
    assert read_length(amount("7/8"), thin_band, None).reason is Reason.TWO_READINGS
    assert read_length(amount("3/8"), thin_band, None).outcome is Outcome.TAKE
    assert read_length(amount("5/8"), thin_band, Unit.IN).outcome is Outcome.TAKE


def test_nothing_at_all_is_a_length_only_for_a_space(
    amount: One, space_band: Band, frame_band: Band
) -> None:
    """A free space may be 0, and in every unit it is the same 0; wood may not."""
    reading = read_length(amount("0"), space_band, None)
    assert (reading.outcome, reading.values, reading.exact) == (Outcome.TAKE, (Fraction(0),), True)
    assert read_length(amount("0 cm"), frame_band, None).reason is Reason.NOT_POSSIBLE


def test_an_improper_fraction_is_never_taken(amount: One, thin_band: Band) -> None:
    """9/16 in is a thickness; 9/8 and 8/8 stand on no tape, and 11/8 may be 1 1/8."""
    assert read_length(amount("9/16"), thin_band, Unit.IN).outcome is Outcome.TAKE
    for text in ("9/8", "8/8", "11/8", '5/4"', "4/4 in"):
        assert read_length(amount(text), thin_band, Unit.IN).outcome is Outcome.ASK


def test_nothing_is_proposed_where_it_is_possible_and_rare(amount: One) -> None:
    """A rim may lie level with the ledge, but that is shown for a yes."""
    rare = Band(Fraction(5), Fraction(45), Fraction(0), Fraction(80), "test")
    reading = read_length(amount("0"), rare, None)
    assert (reading.outcome, reading.exact) == (Outcome.PROPOSE, None)
    assert offered(reading) == ["0 mm"]


def test_a_wide_band_does_not_make_millimetres_the_silent_choice(
    amount: One, space_band: Band
) -> None:
    """Where mm and cm both fit, the unit is asked."""
    assert read_length(amount("2"), space_band, None).reason is Reason.WHICH_UNIT
