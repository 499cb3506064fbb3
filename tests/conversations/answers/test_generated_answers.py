"""Thousands of well-formed answers: none is taken for another length than was meant.

The numbers are written here by the test itself, the lengths come from pint; nothing of the
reading is used to make them.
"""

from __future__ import annotations

import random
import time
from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

import pint
import pytest

from conversations.answers import Outcome, Unit, read
from sizing.measures import Measure

ANSWERS = 8000
SEED = 20260302
NEEDLESS = 0.03
NEEDLESS_BARE_INCHES = 0.15
SLOWEST_MEAN = 0.001

REGISTRY: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
MEANT = {
    Measure.SIDE_TO_SIDE: (220, 480),
    Measure.TOP_TO_BOTTOM: (130, 320),
    Measure.LUG_TO_LUG: (240, 520),
    Measure.INSIDE_ALONG: (235, 500),
    Measure.WIDEST_WOOD: (22, 40),
}
UNIT_WORDS = {
    ("en", "mm"): ("mm", "millimetres", "MM", "millimeters"),
    ("en", "cm"): ("cm", "centimetres", "Cm", "cm."),
    ("en", "inch"): ("in", "inches", '"', "″", "”", "''", "in."),
    ("en", "m"): ("m", "metres"),
    ("pl", "mm"): ("mm", "milimetrów", "milimetry", "milimetra"),
    ("pl", "cm"): ("cm", "centymetra", "centymetrów", "CM"),
    ("pl", "inch"): ("cala", "cali", "cale", '"'),
    ("pl", "m"): ("m", "metra"),
}
SIMPLE_FRACTIONS = {"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "5/8": "⅝"}
BEFORE = ("", "", "", " ", "it's ", "jest ", "= ", "\u200b")
AFTER = ("", "", "", " ", ".", "!", "\n", " 👍")


@dataclass(frozen=True)
class Typed:
    """One answer as somebody would type it, and the length that was meant."""

    text: str
    measure: Measure
    language: str
    meant: Fraction
    unit: str
    bare: bool


def typed(chance: random.Random) -> Typed:
    """One answer: a length, a unit, a way to write it, some noise."""
    measure = chance.choice(list(MEANT))
    low, high = MEANT[measure]
    unit = chance.choices(["mm", "cm", "inch", "m"], weights=[35, 40, 20, 5])[0]
    language = chance.choice(["en", "pl"])
    # a bare number of inches is written by who has an inch tape only
    bare = unit != "m" and chance.random() < 0.5
    digits, number = (
        fractional(chance, low, high) if unit == "inch" else metric(chance, low, high, unit)
    )
    meant = Fraction(REGISTRY.Quantity(number, unit).to("mm").magnitude)
    word = "" if bare else chance.choice(UNIT_WORDS[language, unit])
    text = f"{digits}{chance.choice(['', ' ', chr(160)])}{word}" if word else digits
    text = f"{chance.choice(BEFORE)}{text}{chance.choice(AFTER)}"
    return Typed(text, measure, language, meant, unit, bare)


def metric(chance: random.Random, low: int, high: int, unit: str) -> tuple[str, Fraction]:
    """A length in mm, cm or m, to the millimetre or half of it, with either mark."""
    tenths = chance.randint(low, high) * 10 + chance.choice([0, 0, 0, 5])
    places = {"mm": 1, "cm": 2, "m": 4}[unit]
    whole, rest = divmod(tenths, 10**places)
    decimals = f"{rest:0{places}d}"
    while decimals.endswith("0") and not (len(decimals) == 1 and chance.random() < 0.1):
        decimals = decimals[:-1]
    if unit == "cm" and not decimals and chance.random() < 0.5:
        decimals = "0"
    digits = f"{whole}{chance.choice('.,')}{decimals}" if decimals else str(whole)
    return digits, Fraction(tenths, 10**places)


def fractional(chance: random.Random, low: int, high: int) -> tuple[str, Fraction]:
    """A length in inches as a tape shows it, or as decimals."""
    bottom = chance.choice([1, 2, 4, 8, 16, 32])
    count = chance.randint(int(low * bottom / 25.4) + 1, int(high * bottom / 25.4))
    whole, top = divmod(count, bottom)
    number = Fraction(count, bottom)
    if top == 0:
        return str(whole), number
    if chance.random() < 0.2 and bottom <= 8:
        decimals = str(Fraction(top, bottom) * 1000)
        return f"{whole}{chance.choice('.,')}{decimals:0>3}", number
    lowest = Fraction(top, bottom)
    part = f"{lowest.numerator}/{lowest.denominator}"
    signs = [part, part.replace("/", "⁄")]
    if part in SIMPLE_FRACTIONS:
        signs.append(SIMPLE_FRACTIONS[part])
    sign = chance.choice(signs)
    joint = chance.choice([" ", "-"]) if "/" in sign or "⁄" in sign else chance.choice(["", " "])
    return (f"{whole}{joint}{sign}" if whole else sign), number


@pytest.fixture(scope="module")
def answers() -> list[Typed]:
    """The generated answers, the same ones every time."""
    chance = random.Random(SEED)
    return [typed(chance) for _ in range(ANSWERS)]


def test_no_generated_answer_is_silently_wrong(answers: list[Typed]) -> None:
    """What is taken is exactly the length that was meant, every time."""
    wrong = []
    for answer in answers:
        reading = read(answer.text, answer.measure, language=answer.language)
        if reading.outcome is Outcome.TAKE and reading.values != (answer.meant,):
            wrong.append((answer, reading))
    assert wrong == []


def test_readable_answers_are_seldom_asked_about(answers: list[Typed]) -> None:
    """At most 3 in 100 of all, and 15 in 100 of the bare inches, cost a question."""
    counts: Counter[tuple[str, bool]] = Counter()
    asked: Counter[tuple[str, bool]] = Counter()
    for answer in answers:
        reading = read(answer.text, answer.measure, language=answer.language)
        kind = (answer.unit, answer.bare)
        counts[kind] += 1
        asked[kind] += reading.outcome is not Outcome.TAKE
    print({kind: f"{asked[kind]} of {counts[kind]}" for kind in sorted(counts)})
    assert sum(asked.values()) <= NEEDLESS * len(answers)
    assert asked["inch", True] <= NEEDLESS_BARE_INCHES * counts["inch", True]


def test_the_unit_that_was_typed_comes_back(answers: list[Typed]) -> None:
    """The echo can use the unit the person used."""
    units = {"mm": Unit.MM, "cm": Unit.CM, "inch": Unit.IN, "m": Unit.M}
    for answer in answers:
        reading = read(answer.text, answer.measure, language=answer.language)
        if reading.outcome is Outcome.TAKE:
            assert reading.unit is units[answer.unit]


def test_an_answer_is_read_well_under_a_millisecond(answers: list[Typed]) -> None:
    """The mean over all answers leaves a wide margin also on a busy machine."""
    begin = time.perf_counter()
    for answer in answers:
        read(answer.text, answer.measure, language=answer.language)
    mean = (time.perf_counter() - begin) / len(answers)
    assert mean < SLOWEST_MEAN
