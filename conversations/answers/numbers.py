"""The grammar of numbers: what one number or fraction as typed can be, in exact arithmetic.

Comma and dot are alike: which of them is the decimal mark is never decided from the
language. A fraction has a denominator found on tapes.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from conversations.answers.units import Symbol

__all__ = ["DENOMINATORS", "Amount", "Form", "fraction", "halved", "mixed", "number"]

DENOMINATORS = frozenset({2, 4, 8, 16, 32, 64})
"""What the marks of an inch tape show."""

_PLAIN = re.compile(r"([0-9]*)[.,]([0-9]+)")
_GROUPED = re.compile(r"([0-9]{1,3}(?:([.,'])[0-9]{3})(?:\2[0-9]{3})*)(?:(?!\2)[.,]([0-9]+))?")
_THOUSANDS_DIGITS = 3


class Form(StrEnum):
    """How a number is written."""

    WHOLE = "whole"
    DECIMAL = "decimal"
    FRACTION = "fraction"


@dataclass(frozen=True, slots=True)
class Amount:
    """One number as typed, in its own unit if it has one."""

    value: Fraction
    step: Fraction
    """The smallest step that was written down, in the same unit."""
    form: Form
    text: str
    symbol: Symbol | None = None
    doubtful: bool = False
    """Read, but only to be proposed."""
    torn: bool = False
    """The unit may be inches as well."""
    odd: bool = False
    """A fraction no tape shows."""
    places: int = 0
    thousands: Fraction | None = None
    """The same digits with the mark between thousands."""
    ends: tuple[int, int] | None = None
    """The two numbers at a slash, where nothing stands before them."""
    splits: tuple[Fraction, ...] = ()
    """141/8 may have been 14 1/8."""


def number(text: str) -> Amount | None:
    """A whole or decimal number; None where the marks make it a list."""
    if text.isdigit():
        padded = text[0] == "0" and len(text) > 1
        return Amount(Fraction(int(text)), Fraction(1), Form.WHOLE, text, doubtful=padded)
    if plain := _PLAIN.fullmatch(text):
        whole, decimals = plain.groups()
        step = Fraction(1, 10 ** len(decimals))
        maybe = len(decimals) == _THOUSANDS_DIGITS and whole.strip("0") != ""
        return Amount(
            int(whole + decimals) * step, step, Form.DECIMAL, text, places=len(decimals),
            thousands=Fraction(int(whole + decimals)) if maybe else None,
        )  # fmt: skip
    if (grouped := _GROUPED.fullmatch(text)) and (grouped[3] or grouped[2] == "'"):
        decimals = grouped[3] or ""
        step = Fraction(1, 10 ** len(decimals))
        digits = re.sub(r"[.,']", "", grouped[1]) + decimals
        form = Form.DECIMAL if decimals else Form.WHOLE
        return Amount(int(digits) * step, step, form, text, places=len(decimals))
    return None


def fraction(text: str) -> Amount:
    """A fraction that nothing stands before: 7/8, 141/8, 362/364."""
    top, bottom = (int(part) for part in text.split("/"))
    known = bottom in DENOMINATORS
    return Amount(
        Fraction(top, bottom) if bottom else Fraction(0),
        Fraction(1, bottom or 1), Form.FRACTION, text.replace(" ", ""),
        odd=not known or not 0 < top < bottom, ends=(top, bottom),
        splits=tuple(_splits(str(top), bottom)) if known and top > bottom else (),
    )  # fmt: skip


def _splits(digits: str, bottom: int) -> list[Fraction]:
    """The ways to read a whole number before a proper fraction into the digits above the line."""
    found = []
    for at in range(1, len(digits)):
        top = digits[at:]
        if top[0] != "0" and len(top) <= len(str(bottom)) and int(top) < bottom:
            found.append(int(digits[:at]) + Fraction(int(top), bottom))
    return found


def mixed(whole: Amount, part: Amount) -> Amount:
    """A whole number and the fraction after it."""
    assert part.ends is not None
    top, bottom = part.ends
    return replace(
        whole, value=whole.value + part.value, step=part.step, form=Form.FRACTION,
        text=f"{whole.text} {part.text}", odd=bottom not in DENOMINATORS or not 0 < top < bottom,
    )  # fmt: skip


def halved(whole: Amount) -> Amount:
    """A whole number and the words for a half after it."""
    half = Fraction(1, 2)
    return replace(whole, value=whole.value + half, step=half, form=Form.FRACTION)
