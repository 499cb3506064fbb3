"""What stands on papers, in one language: texts, lengths, dates, order numbers."""

from __future__ import annotations

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import lru_cache

from babel.dates import format_date
from babel.numbers import format_decimal

from conversations.locale import Catalogue, catalogue

__all__ = ["Speech"]

_HUNDREDTH = Decimal("0.01")


@lru_cache(2048)
def _figure(exact: Fraction, language: str) -> str:
    hundredth = (Decimal(exact.numerator) / Decimal(exact.denominator)).quantize(
        _HUNDREDTH, rounding=ROUND_HALF_UP
    )
    return str(format_decimal(hundredth, format="0.##", locale=language))


class Speech:
    """The texts of one language; `KeyError` for a language that is not spoken."""

    def __init__(self, language: str) -> None:
        self.language = language
        self._texts: Catalogue = catalogue(language)

    def __call__(self, key: str, **values: object) -> str:
        """The text under `key` with its values put in."""
        return self._texts.text(key).format(**values)

    def has(self, key: str) -> bool:
        """Whether there is a text under `key`."""
        return self._texts.has(key)

    def figure(self, value: Fraction | int) -> str:
        """A number to a hundredth, without needless decimals."""
        return _figure(Fraction(value), self.language)

    def length(self, value: Fraction) -> str:
        """A length [mm] with its unit, which does not part from it."""
        return f"{self.figure(value)}\u00a0mm"

    def day(self, day: date) -> str:
        """A day as people write it."""
        return str(format_date(day, format="long", locale=self.language))
