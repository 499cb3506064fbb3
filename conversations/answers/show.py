"""A length the way a person writes it in one unit."""

from __future__ import annotations

from fractions import Fraction

from conversations.answers.units import Symbol, Unit
from sizing.units import Mm

__all__ = ["decimal", "written"]

_PLACES = {Unit.MM: 1, Unit.CM: 2, Unit.M: 3, Unit.IN: 2}
"""Decimals shown at most: nobody cuts finer than a tenth of a millimetre."""
_FINEST_MARK = 64


def written(value: Mm, unit: Unit, decimal_mark: str = ".") -> str:
    """`value` [mm] in `unit`: "36.3 cm", "14 1/8 in".

    Inches that stand on a tape (64ths) are written as fractions, others with two decimals.
    """
    amount = value / Symbol(unit).size
    if unit is Unit.IN and _FINEST_MARK % amount.denominator == 0 and amount >= 0:
        return f"{_mixed(amount)} in"
    return f"{decimal(amount, _PLACES[unit], decimal_mark)} {unit}"


def decimal(number: Fraction, places: int, decimal_mark: str = ".") -> str:
    """`number` with at most `places` decimals, halves away from zero, no needless zeros."""
    scale: int = 10**places
    count = (2 * abs(number) * scale + 1) // 2
    whole, rest = divmod(count, scale)
    sign = "-" if number < 0 and count else ""
    digits = f"{rest:0{places}d}".rstrip("0") if places else ""
    return f"{sign}{whole}{decimal_mark}{digits}" if digits else f"{sign}{whole}"


def _mixed(amount: Fraction) -> str:
    whole, rest = divmod(amount.numerator, amount.denominator)
    if not rest:
        return str(whole)
    fraction = f"{rest}/{amount.denominator}"
    return f"{whole} {fraction}" if whole else fraction
