"""Papers write numbers, lengths and days as their language does."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from bot.paperwork.speech import Speech


def test_a_length_is_written_to_a_hundredth_with_the_mark_of_the_language() -> None:
    """Halves away from zero, no needless decimals, the unit never on another line."""
    assert Speech("en").length(Fraction("4.1725")) == "4.17\u00a0mm"
    assert Speech("en").figure(Fraction("4.175")) == "4.18"
    assert Speech("pl").figure(Fraction("256.70")) == "256,7"
    assert Speech("pl").figure(Fraction(370)) == "370"


def test_a_day_is_written_out() -> None:
    """No month is taken for a day."""
    assert Speech("en").day(date(2026, 3, 2)) == "March 2, 2026"
    assert Speech("pl").day(date(2026, 3, 2)) == "2 marca 2026"


def test_an_unknown_language_is_an_error() -> None:
    """No paper is half in another language."""
    with pytest.raises(KeyError):
        Speech("xx")
    assert not Speech("en").has("no.such.key")
