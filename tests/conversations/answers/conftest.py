"""What the tests of this folder share."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from conversations.answers.numbers import Amount, fraction, mixed, number
from conversations.answers.statement import Statement, statement
from conversations.answers.text import normalise
from conversations.answers.tokens import Token, tokens
from conversations.answers.words import vocabulary
from sizing.plausibility.ranges import Band


@pytest.fixture
def cut() -> Callable[[str], tuple[Token, ...]]:
    """Cuts a text into tokens with the words of all languages."""
    return lambda text: tokens(normalise(text), vocabulary(None))


@pytest.fixture
def state(cut: Callable[[str], tuple[Token, ...]]) -> Callable[[str], Statement]:
    """What a text states."""
    return lambda text: statement(cut(text))


@pytest.fixture
def amount(state: Callable[[str], Statement]) -> Callable[[str], Amount]:
    """The one amount a text states."""

    def one(text: str) -> Amount:
        (only,) = state(text).amounts
        return only

    return one


@pytest.fixture
def frame_band() -> Band:
    """A band like that of a frame's length; of the tests' own, so that data may change."""
    return Band(Fraction(150), Fraction(500), Fraction(80), Fraction(700), "test")


@pytest.fixture
def thin_band() -> Band:
    """A band like that of a lug's thickness."""
    return Band(Fraction(4), Fraction(20), Fraction(3), Fraction(30), "test")


@pytest.fixture
def space_band() -> Band:
    """A band like that of a free space, which may be nothing."""
    return Band(Fraction(0), Fraction(40), Fraction(0), Fraction(200), "test")


@pytest.fixture
def typed() -> Callable[[str], Amount]:
    """A number or fraction without unit, straight from the grammar."""

    def of(text: str) -> Amount:
        if " " in text:
            whole, part = text.split()
            return mixed(of(whole), fraction(part))
        found = fraction(text) if "/" in text else number(text)
        assert found is not None
        return found

    return of
