"""How a length is typed: the number in a unit, then the text in somebody's way of writing.

Written here anew; nothing of the reading is used, so that both can be wrong only apart.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

__all__ = ["FACTORS", "WORDS", "Number", "Style", "changed_digit", "inches", "metric", "swapped"]

FACTORS = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(127, 5)}
WORDS: dict[str, dict[str, tuple[str, ...]]] = {
    "en": {"mm": ("mm", "millimetres"), "cm": ("cm", "centimetres"), "in": ('"', "in", "inches")},
    "pl": {"mm": ("mm", "milimetrów"), "cm": ("cm", "centymetra"), "in": ('"', "cala")},
    "de": {"mm": ("mm", "Millimeter"), "cm": ("cm", "Zentimeter"), "in": ("Zoll",)},
    "uk": {"mm": ("мм", "міліметрів"), "cm": ("см", "сантиметри"), "in": ("дюйма",)},
    "fr": {"mm": ("mm", "millimètres"), "cm": ("cm", "centimètres"), "in": ("pouces",)},
    "es": {"mm": ("mm", "milímetros"), "cm": ("cm", "centímetros"), "in": ("pulgadas",)},
    "it": {"mm": ("mm", "millimetri"), "cm": ("cm", "centimetri"), "in": ("pollici",)},
    "cs": {"mm": ("mm", "milimetrů"), "cm": ("cm", "centimetru"), "in": ("palce",)},
}
SIGNS = {"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞"}


@dataclass(frozen=True)
class Number:
    """What stands on the screen: digits (with a point), a part of an inch, a unit."""

    digits: str
    unit: str
    part: Fraction = Fraction(0)

    @property
    def mm(self) -> Fraction:
        """The length these digits and this unit mean [mm]."""
        return (Fraction(self.digits) + self.part) * FACTORS[self.unit]


@dataclass(frozen=True)
class Style:
    """One person's way to write."""

    language: str
    mark: str
    bare: float
    signs: bool

    def text(self, number: Number, chance: random.Random, *, with_unit: bool | None = None) -> str:
        """The number as this person types it."""
        if with_unit is None:
            with_unit = chance.random() >= self.bare
        body = number.digits.replace(".", self.mark)
        if number.part:
            part = f"{number.part.numerator}/{number.part.denominator}"
            if self.signs and part in SIGNS:
                part = SIGNS[part]
            body = part if number.digits == "0" else f"{body} {part}"
        if not with_unit:
            return body
        word = chance.choice(WORDS[self.language][number.unit])
        return f"{body}{'' if word == chr(34) else chance.choice(['', ' '])}{word}"


def metric(value: float, step: int, unit: str, *, shows_zero: bool) -> Number:
    """A length [mm] rounded to `step`, in mm or cm."""
    whole = max(step, round(value / step) * step)
    if unit == "mm":
        return Number(str(whole), "mm")
    centimetres, rest = divmod(whole, 10)
    if rest == 0 and not (shows_zero and step < 10):
        return Number(str(centimetres), "cm")
    return Number(f"{centimetres}.{rest}", "cm")


def inches(value: float, parts: int) -> Number:
    """A length [mm] as inches and halves, quarters, 8ths or 16ths."""
    count = max(1, round(value / 25.4 * parts))
    whole, rest = divmod(count, parts)
    return Number(str(whole), "in", Fraction(rest, parts))


def _places(number: Number) -> list[int]:
    return [at for at, sign in enumerate(number.digits) if sign.isdigit()]


def swapped(number: Number, chance: random.Random) -> Number | None:
    """Two neighbouring digits exchanged; None where that changes nothing."""
    places = _places(number)
    pairs = [
        (one, other)
        for one, other in pairwise(places)
        if number.digits[one] != number.digits[other]
        and not (one == 0 and number.digits[other] == "0")
    ]
    if not pairs:
        return None
    one, other = chance.choice(pairs)
    signs = list(number.digits)
    signs[one], signs[other] = signs[other], signs[one]
    return replace(number, digits="".join(signs))


def changed_digit(number: Number, chance: random.Random) -> Number:
    """One digit is another; the first is never 0."""
    at = chance.choice(_places(number))
    others = [sign for sign in "0123456789" if sign != number.digits[at] and (at or sign != "0")]
    signs = list(number.digits)
    signs[at] = chance.choice(others)
    return replace(number, digits="".join(signs))
