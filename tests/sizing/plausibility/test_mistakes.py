"""The mistakes: what each would have been without, and that all of them have a weight."""

from __future__ import annotations

import pytest

from sizing.measures import Measure
from sizing.plausibility.mistakes import (
    TICKS,
    Mistake,
    Variant,
    figure,
    figures,
    in_inches,
    variants,
)

S, H, L = Measure.SIDE_TO_SIDE, Measure.TOP_TO_BOTTOM, Measure.LUG_TO_LUG
A, R = Measure.INSIDE_ALONG, Measure.LUG_ROOM
IT_IS_SO = {Mistake.ODD_FRAME, Mistake.ODD_HIVE, Mistake.AS_USUAL}


def told(lengths: dict[Measure, float], mistake: Mistake) -> list[Variant]:
    """All variants of one mistake in these answers."""
    ticks = {measure: round(value * TICKS) for measure, value in lengths.items()}
    return [one for one in variants(ticks, ticks) if one.mistake is mistake]


def lengths(found: list[Variant]) -> set[float]:
    """The lengths [mm] that would be true, of mistakes in one answer."""
    return {one.true[0] / TICKS for one in found}


@pytest.mark.parametrize(
    ("answers", "mistake", "true"),
    [
        ({S: 176.4}, Mistake.UNIT, 448.056),
        ({S: 36}, Mistake.TEN_TIMES, 360),
        ({S: 340}, Mistake.INSIDE, 360),
        ({H: 240}, Mistake.INSIDE, 260),
        ({H: 248}, Mistake.COMB, 260),
        ({L: 360}, Mistake.LUGS, 390),
        ({S: 390}, Mistake.LUGS, 360),
        ({S: 630}, Mistake.DIGITS_SWAPPED, 360),
        ({S: 36.5}, Mistake.DIGITS_SWAPPED, 63.5),
        ({S: 367}, Mistake.ONE_DIGIT, 360),
        ({S: 460}, Mistake.NOT_FROM_ZERO, 360),
        ({A: 310}, Mistake.TAPE_CASE, 375),
        ({A: 415}, Mistake.OUTSIDE_OF_BOX, 375),
        ({S: 358.5}, Mistake.HOOK_PLAY, 360),
    ],
)  # fmt: skip
def test_each_mistake_gives_what_would_be_true(
    answers: dict[Measure, float], mistake: Mistake, true: float
) -> None:
    """Among the lengths a mistake may have been made from is the true one."""
    assert any(abs(one - true) < 0.01 for one in lengths(told(answers, mistake)))


def test_two_answers_in_each_others_place_are_exchanged_together() -> None:
    """Both change, or none."""
    found = told({S: 260, H: 360, L: 391}, Mistake.EXCHANGED)
    assert ((S, H), (360 * TICKS, 260 * TICKS)) in [(one.measures, one.true) for one in found]


def test_an_inch_tape_starts_at_another_mark() -> None:
    """Fourteen inches and an eighth may be thirteen and an eighth."""
    found = told({S: 14.125 * 25.4}, Mistake.NOT_FROM_ZERO)
    assert lengths(found) == {13.125 * 25.4}
    assert in_inches(round(14.125 * 25.4 * TICKS))
    assert not in_inches(round(36.1 * TICKS))


def test_digits_of_inches_are_those_that_were_typed() -> None:
    """In 14 1/8 the 1 and the 4 may be swapped, and the eighth stays."""
    assert lengths(told({S: 14.125 * 25.4}, Mistake.DIGITS_SWAPPED)) == {41.125 * 25.4}


def test_a_first_digit_never_becomes_zero() -> None:
    """Nobody types 0 first: 306 was not 036."""
    assert 36 not in lengths(told({S: 306}, Mistake.DIGITS_SWAPPED))
    assert min(lengths(told({S: 306}, Mistake.ONE_DIGIT))) >= 100


def test_only_suspects_are_told_of() -> None:
    """Who is not suspected has no story but that of the hook."""
    ticks = {S: 360 * TICKS, H: 260 * TICKS}
    measures = {m for one in variants(ticks, {H}) if one.mistake is not Mistake.HOOK_PLAY
                for m in one.measures if one.mistake is not Mistake.EXCHANGED}  # fmt: skip
    assert measures == {H}


def test_every_mistake_has_a_prior_and_its_variants_share_it() -> None:
    """The weights of the variants of one answer sum to the figure in the data."""
    for mistake in set(Mistake) - IT_IS_SO:
        assert 0 < figure(f"prior.{mistake}") < 0.5
    for mistake in (Mistake.ONE_DIGIT, Mistake.DIGITS_SWAPPED, Mistake.INSIDE, Mistake.UNIT):
        total = sum(one.weight for one in told({S: 361}, mistake))
        assert total == pytest.approx(figure(f"prior.{mistake}"), rel=0.05)


def test_the_sums_of_two_lugs_are_those_of_the_data_both_ways() -> None:
    """Lugs left out and lugs taken in are the same lugs."""
    out, taken_in = figures("shift.lugs-left-out"), figures("shift.lugs-taken-in")
    assert sorted(-amount for amount in out) == sorted(taken_in)
