"""What the tokens state."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from conversations.answers.numbers import Amount
from conversations.answers.statement import Joint, Statement
from conversations.answers.units import Symbol
from conversations.answers.words import Kind

State = Callable[[str], Statement]
One = Callable[[str], Amount]


@pytest.mark.parametrize(
    ("text", "value", "symbol"),
    [
        ("14-1/8 in", "113/8", Symbol.IN),
        ("14 and 1/8 in", "113/8", Symbol.IN),
        ("14 in 1/8", "113/8", Symbol.IN),
        ("14 and a half inches", "29/2", Symbol.IN),
        ("14 pouces et demi", "29/2", Symbol.IN),
        ("36 cm 3 mm", "36.3", Symbol.CM),
        ("36 cm and 3 mm", "36.3", Symbol.CM),
        ("0 m 36 cm 3 mm", "36.3", Symbol.CM),
        ("1 ft 5 5/8 in", "141/8", Symbol.IN),
        ("1 ft 5/8 in", "101/8", Symbol.IN),
        ("1 m 5 mm", "1005", Symbol.MM),
    ],
)
def test_one_length_may_be_said_in_pieces(
    amount: One, text: str, value: str, symbol: Symbol
) -> None:
    """Whole and fraction, two units, a half in words: one amount."""
    found = amount(text)
    assert (found.value, found.symbol) == (Fraction(value), symbol)
    assert not found.doubtful


@pytest.mark.parametrize("text", ["36 cm 3", "1' 5", "36.3 sm"])
def test_a_missing_or_odd_unit_makes_the_amount_doubtful(amount: One, text: str) -> None:
    """What is left out at the end, or spelled oddly, is only proposed."""
    assert amount(text).doubtful


@pytest.mark.parametrize(
    "text", ["36 cm 30 cm", "36 cm 10 mm", "1 ft 12 in", "36 cm 12 mm", "14 in 3 mm", "30 cm 5,5"]
)
def test_what_is_no_part_of_the_unit_before_is_a_second_amount(state: State, text: str) -> None:
    """12 mm are no part of a centimetre."""
    assert len(state(text).amounts) == 2


@pytest.mark.parametrize(
    ("text", "joint"),
    [("435 300", Joint.SPACE), ("435, 300", Joint.COMMA), ("435;300", Joint.SEMICOLON),
     ("435 x 300", Joint.BY), ("363 or 364", Joint.EITHER), ("36-37", Joint.EITHER),
     ("36 + 37", Joint.EITHER), ("363 ± 1", Joint.TOLERANCE), ("36 3/4 - 37", Joint.EITHER),
     ("435, or 300", Joint.EITHER)],
)  # fmt: skip
def test_the_strongest_sign_between_joins_two_amounts(
    state: State, text: str, joint: Joint
) -> None:
    """Of several signs between two amounts the one that says most counts."""
    assert state(text).joints == (joint,)


def test_a_list_without_spaces_is_taken_apart(state: State) -> None:
    """435,300,25 cm are three amounts, the unit on the last."""
    stated = state("435,300,25 mm")
    assert [amount.value for amount in stated.amounts] == [435, 300, 25]
    assert [amount.symbol for amount in stated.amounts] == [None, None, Symbol.MM]
    assert stated.joints == (Joint.COMMA, Joint.COMMA)


@pytest.mark.parametrize("text", ["-363", "363-", "x 363", "or 363", "not 363", "363?", "+363"])
def test_what_nobody_can_place_is_noted(state: State, text: str) -> None:
    """A stray word or sign beside the number leaves a doubt."""
    assert state(text).unknown


@pytest.mark.parametrize("text", ["363", "363.", "it's 363 mm!", "(363)", "= 363 mm"])
def test_noise_leaves_no_doubt(state: State, text: str) -> None:
    """Polite words, brackets and dots change nothing."""
    assert not state(text).unknown


@pytest.mark.parametrize("text", ["36+", "± 363", "about 36", "36ish", "<363"])
def test_about_is_heard_in_signs_and_words(state: State, text: str) -> None:
    """A plus behind a number says about as much as the word."""
    assert Kind.HEDGE in state(text).said


def test_frames_are_counted_only_right_behind_the_number(state: State) -> None:
    """`10 frames` is a count, `the frame is 363` is not."""
    assert state("10 frames").counted
    assert not state("the frame is 363").counted


def test_long_chains_of_units_are_read_in_bounded_depth(state: State) -> None:
    """Hundreds of units in a row are so many amounts, whatever the recursion limit."""
    assert len(state("1m" * 250).amounts) == 250
