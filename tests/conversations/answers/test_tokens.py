"""A plain line cut into tokens."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from conversations.answers.tokens import Sign, Token
from conversations.answers.units import Symbol
from conversations.answers.words import Kind

Cut = Callable[[str], tuple[Token, ...]]


def kinds(tokens: tuple[Token, ...]) -> list[Sign | Kind]:
    """What the tokens are, in order."""
    return [token.kind for token in tokens]


def test_unit_words_count_only_after_a_number(cut: Cut) -> None:
    """`in` is inches behind a number and an unknown word elsewhere."""
    assert cut("14 in")[1].unit is not None
    assert cut("in 14")[0].kind is Sign.UNKNOWN


def test_a_phrase_of_several_words_beats_a_unit(cut: Cut) -> None:
    """`18 in total` says nothing about inches."""
    assert kinds(cut("18 in total")) == [Sign.NUMBER, Kind.FILLER]


@pytest.mark.parametrize(
    ("text", "symbol"),
    [('14"', Symbol.IN), ("1'", Symbol.FT), ("36см", Symbol.CM), ("36 (cm)", Symbol.CM)],
)
def test_units_are_found_right_behind_the_number(cut: Cut, text: str, symbol: Symbol) -> None:
    """Marks, glued words and words in brackets are the unit of the number before them."""
    unit = cut(text)[1].unit
    assert unit is not None
    assert unit.symbol is symbol


def test_an_inch_mark_before_a_number_is_a_stray_quotation_mark(cut: Cut) -> None:
    """Only behind a number is a mark a unit."""
    assert kinds(cut('"363')) == [Sign.UNKNOWN, Sign.NUMBER]


def test_a_by_that_sticks_to_the_unit_is_cut_off(cut: Cut) -> None:
    """`435mmx300mm` is two lengths with their units."""
    assert kinds(cut("435mmx300mm")) == [
        Sign.NUMBER, Sign.UNIT, Kind.BY, Sign.NUMBER, Sign.UNIT,
    ]  # fmt: skip


def test_the_longest_phrase_wins(cut: Cut) -> None:
    """`na zewnątrz` is outside, `na` alone is by."""
    assert kinds(cut("435 na zewnątrz")) == [Sign.NUMBER, Kind.OUTSIDE]
    assert kinds(cut("435 na 300")) == [Sign.NUMBER, Kind.BY, Sign.NUMBER]


def test_hyphens_within_a_phrase_do_not_part_it(cut: Cut) -> None:
    """`mniej-więcej` is the phrase of two words; a dash before a number stays a dash."""
    assert kinds(cut("mniej-więcej 36")) == [Kind.HEDGE, Sign.NUMBER]
    assert kinds(cut("razy - 36")) == [Kind.BY, Sign.DASH, Sign.NUMBER]


def test_stray_signs_are_left_out_and_meant_ones_are_not(cut: Cut) -> None:
    """Brackets and emoji say nothing, a percent sign says something nobody asked for."""
    assert kinds(cut("(363) 👍!")) == [Sign.NUMBER]
    assert kinds(cut("363 %")) == [Sign.NUMBER, Sign.UNKNOWN]


def test_dates_and_long_chains_are_no_fractions(cut: Cut) -> None:
    """12/05/2026 holds numbers and slashes, no fraction."""
    assert Sign.FRACTION not in kinds(cut("12/05/2026"))
    assert kinds(cut("14 1/8")) == [Sign.NUMBER, Sign.FRACTION]
