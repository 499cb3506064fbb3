"""The grammar of numbers."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conversations.answers.numbers import Amount, Form, fraction, halved, mixed, number

Typed = Callable[[str], Amount]


@given(st.integers(0, 10**6), st.integers(1, 6), st.sampled_from(",."))
def test_decimals_are_exact_with_either_mark(count: int, places: int, mark: str) -> None:
    """Comma and dot give the same exact number and the same step."""
    digits = f"{count:0{places + 1}d}"
    typed = number(f"{digits[:-places]}{mark}{digits[-places:]}")
    assert typed is not None
    assert typed.value == Fraction(count, 10**places)
    assert typed.step == Fraction(1, 10**places)


@pytest.mark.parametrize(
    ("text", "value"),
    [(".875", "7/8"), (",5", "1/2"), ("1.234,5", "12345/10"), ("1,234.5", "12345/10"),
     ("1'250", "1250"), ("1.234.567,8", "12345678/10")],
)  # fmt: skip
def test_marks_are_told_apart_by_their_places(text: str, value: str) -> None:
    """Of two different marks the last is the decimal one; a leading mark has a zero before it."""
    typed = number(text)
    assert typed is not None
    assert typed.value == Fraction(value)


def test_marks_between_thousands_alone_leave_a_whole_number() -> None:
    """1'250 has no decimals, 1'250.5 has one."""
    whole, decimal = number("1'250"), number("1'250.5")
    assert whole is not None
    assert decimal is not None
    assert (whole.form, decimal.form) == (Form.WHOLE, Form.DECIMAL)
    assert decimal.step == Fraction(1, 10)


def test_one_mark_and_three_digits_may_be_thousands() -> None:
    """1.250 keeps both readings, 0,363 only one."""
    both, one = number("1.250"), number("0,363")
    assert both is not None
    assert one is not None
    assert both.thousands == 1250
    assert one.thousands is None


@pytest.mark.parametrize("text", ["435,300,25", "12.05.2026", "1.234.567"])
def test_the_same_mark_twice_is_a_list(text: str) -> None:
    """Nobody types two decimal marks."""
    assert number(text) is None


def test_a_leading_zero_makes_a_number_doubtful() -> None:
    """0363 is read, but only to be shown."""
    padded, plain = number("0363"), number("0")
    assert padded is not None
    assert plain is not None
    assert padded.doubtful
    assert not plain.doubtful


@pytest.mark.parametrize("text", ["3/10", "1/0", "0/8", "5/3", "9/8", "8/8", "91/10"])
def test_fractions_no_tape_shows_are_odd(text: str) -> None:
    """Only halves to 64ths stand on a tape, and never none of them."""
    assert fraction(text).odd


@pytest.mark.parametrize(
    ("text", "splits"),
    [("175/8", ["141/8"]), ("141/8", ["113/8"]), ("1411/16", ["235/16", "2257/16"]),
     ("108/8", []), ("7/8", [])],
)  # fmt: skip
def test_a_run_together_fraction_keeps_its_other_reading(text: str, splits: list[str]) -> None:
    """141/8 may have been 14 1/8; a proper fraction is what it says."""
    assert [str(value) for value in fraction(text).splits] == splits


def test_whole_and_fraction_make_one_number(typed: Typed) -> None:
    """14 1/8 is 113/8 with a step of an eighth; 14 9/8 is odd."""
    amount = mixed(typed("14"), typed("1/8"))
    assert (amount.value, amount.step, amount.form) == (
        Fraction(113, 8), Fraction(1, 8), Form.FRACTION,
    )  # fmt: skip
    assert mixed(typed("14"), typed("9/8")).odd
    assert mixed(typed("14"), typed("3/10")).odd


def test_and_a_half_adds_a_half(typed: Typed) -> None:
    """The words for a half make 14 into 14 1/2."""
    assert halved(typed("14")).value == Fraction(29, 2)
    assert halved(typed("14")).step == Fraction(1, 2)
