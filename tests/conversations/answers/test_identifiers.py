"""Digits that are no measurement."""

from __future__ import annotations

import pytest

from conversations.answers.identifiers import is_order_number, is_phone_number


@pytest.mark.parametrize(
    "line",
    ["+48 600 100 200", "0048600100200", "600 100 200", "600-100-200", "06 12 34 56 78",
     "(030) 1234567", "call 0612345678 please", "4111 1111 1111 1111", "600100200", "1234567",
     "+48 600 10 2", "00 48 600 1"],
)  # fmt: skip
def test_telephone_and_card_numbers_are_known_by_their_digits(line: str) -> None:
    """A leading + or 00, nine digits in groups or seven in one piece are no length."""
    assert is_phone_number(line)


@pytest.mark.parametrize(
    "line",
    [
        "363",
        "435 300 25",
        "14.3125",
        "14 1/8 9 1/8 18 3/16",
        "+363",
        "0.363000",
        "123456",
        "+48 600 10",
    ],
)
def test_sizes_are_no_telephone_numbers(line: str) -> None:
    """Fractions, decimals and three sizes have fewer digits in a row."""
    assert not is_phone_number(line)


@pytest.mark.parametrize("line", ["48291742", "482 917 42", "482-917-42", "my order 48291742"])
def test_order_numbers_are_known_by_their_check_digits(line: str) -> None:
    """Eight digits with the right check, in any context."""
    assert is_order_number(line)


@pytest.mark.parametrize("line", ["48291743", "435 300 25", "148291742", "48291742 1", "4829174"])
def test_other_digits_are_no_order_number(line: str) -> None:
    """A wrong check digit, a digit more or a digit less."""
    assert not is_order_number(line)
