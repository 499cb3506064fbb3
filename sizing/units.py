"""Exact lengths.

A length is a `fractions.Fraction` of a millimetre, called `Mm`. Nothing in
`sizing` rounds before the last step: 14 1/8 in is 14351/40 mm, and a row of wires
is counted in exact arithmetic (a binary float counts 21 wires where 20 do).

Source of the inch: international yard and pound agreement, 1959: 1 in = 25.4 mm.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import isfinite
from typing import TypeAlias

__all__ = ["CENTIMETRE", "FOOT", "INCH", "METRE", "Mm", "exact", "nearest", "rounded"]

Mm: TypeAlias = Fraction
"""A length in millimetres, exact."""

CENTIMETRE: Mm = Fraction(10)
METRE: Mm = Fraction(1000)
INCH: Mm = Fraction(254, 10)
FOOT: Mm = 12 * INCH


def exact(value: int | str | Decimal | Fraction) -> Mm:
    """The length [mm] that `value` writes down, without any rounding.

    Text may be a decimal (`"447.7"`) or a fraction (`"127/20"`).
    A float is refused by its type: it no longer is what was written.
    Raises `ValueError` for text that is neither and for values that are not finite.
    """
    if isinstance(value, float):
        raise TypeError("a float is not exact; pass the text or a Decimal")
    try:
        return Fraction(value)
    except (OverflowError, ZeroDivisionError) as error:
        raise ValueError(f"not a finite length: {value!r}") from error


def rounded(value: Fraction, places: int = 3) -> float:
    """`value` [mm] as the nearest number with `places` decimals, halves away from zero."""
    scale = 10**places
    scaled = value * scale
    whole = (2 * abs(scaled) + 1) // 2
    return float(Fraction(whole if scaled >= 0 else -whole, scale))


def nearest(value: float, places: int = 3) -> Mm:
    """The exact length [mm] with `places` decimals that lies nearest to a computed `value` [mm].

    For what comes out of logarithms and angles; raises `ValueError` for one that is not finite.
    """
    if not isfinite(value):
        raise ValueError(value)
    return Fraction(round(value * 10**places), 10**places)
