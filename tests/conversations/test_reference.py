"""Order numbers: eight digits that notice a slip."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conversations import reference

PAYLOADS = st.integers(100_000, 999_999)


def numbers() -> st.SearchStrategy[str]:
    """Order numbers as they are given."""
    return PAYLOADS.map(lambda payload: reference.complete(payload) or "").filter(bool)


@given(numbers())
def test_a_number_that_was_given_is_right(number: str) -> None:
    """Plain, in groups, and with what people put between. ISO/IEC 7064: the whole is 1 mod 97."""
    assert int(number) % 97 == 1
    assert reference.is_valid(number)
    assert reference.is_valid(reference.format(number))
    for between in (" ", "-", ".", "\u2009", "\u2013"):
        assert reference.is_valid(f" {number[:3]}{between}{number[3:6]}{between}{number[6:]} ")
    assert reference.compact(reference.format(number)) == number


@given(numbers(), st.integers(0, 7), st.integers(1, 9))
def test_one_wrong_digit_is_noticed(number: str, place: int, more: int) -> None:
    """Whichever digit it is and whatever stands there instead."""
    wrong = str((int(number[place]) + more) % 10)
    assert not reference.is_valid(number[:place] + wrong + number[place + 1 :])


@given(numbers(), st.integers(0, 6))
def test_two_neighbours_swapped_are_noticed(number: str, place: int) -> None:
    """The commonest slip after the single wrong digit."""
    first, second = number[place], number[place + 1]
    swapped = number[:place] + second + first + number[place + 2 :]
    assert first == second or not reference.is_valid(swapped)


@pytest.mark.parametrize(
    "text",
    ["", "4829174", "482917420", "48291743", "4829174X", "ABCDEFGH", "４８２９１７４２", "04829171",
     "435 300 25", "482/917/42"],
)  # fmt: skip
def test_what_is_no_order_number_is_not_taken_for_one(text: str) -> None:
    """Too short, too long, letters, other scripts' digits, sizes in a row."""
    assert not reference.is_valid(text)


def test_a_number_with_the_same_digit_three_times_running_is_not_given() -> None:
    """It is hard to read out; the payload is passed over."""
    assert reference.complete(111_234) is None
    assert reference.complete(482_917) == "48291742"


@pytest.mark.parametrize("payload", [-1, 0, 99_999, 1_000_000])
def test_a_number_starts_from_six_digits(payload: int) -> None:
    """Anything else is a mistake of the program."""
    with pytest.raises(ValueError, match="six digits"):
        reference.complete(payload)


def test_a_number_is_shown_in_groups_that_stay_on_one_line() -> None:
    """Three, three, two, with spaces that do not break."""
    assert reference.format("48291742") == "482\u00a0917\u00a042"
    assert reference.format("482 917 42") == "482\u00a0917\u00a042"
