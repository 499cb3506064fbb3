"""Thousands of well-formed answers in eight languages: none is taken for another length than
was meant.

The numbers are written here by the test itself, with words of its own; the lengths come from
pint. Nothing of the reading is used to make them.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

import pint
import pytest

from conversations.answers import Outcome, Reading, Unit, read
from sizing.measures import Measure

FEW, MANY = 2_000, 12_000
SEED = 20260302
NEEDLESS = 0.03
NEEDLESS_BARE_INCHES = 0.15

REGISTRY: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
REGISTRY.define("tenth_of_inch = inch / 10")
MEANT = {
    Measure.SIDE_TO_SIDE: (220, 480),
    Measure.TOP_TO_BOTTOM: (130, 450),
    Measure.LUG_TO_LUG: (240, 520),
    Measure.INSIDE_ALONG: (235, 500),
    Measure.LUG_ROOM: (250, 530),
    Measure.LEDGE_DOWN: (140, 440),
    Measure.WIDEST_WOOD: (22, 40),
    Measure.COMB_THICKNESS: (22, 40),
}
"""Every length of the trade, from small hives to large ones [mm]."""

# Units as people of each language write them: the full word, its cases, short forms.
UNIT_WORDS = {
    "en": {
        "mm": ("mm", "millimetres", "MM", "millimeters", "mm."),
        "cm": ("cm", "centimetres", "Cm", "cm.", "centimeters"),
        "inch": ("in", "inches", '"', "″", "”", "''", "in.", "inch"),
        "m": ("m", "metres", "meters"),
    },
    "pl": {
        "mm": ("mm", "milimetrów", "milimetry", "milimetra"),
        "cm": ("cm", "centymetra", "centymetrów", "CM", "centymetry"),
        "inch": ("cala", "cali", "cale", '"'),
        "m": ("m", "metra"),
    },
    "de": {
        "mm": ("mm", "Millimeter"),
        "cm": ("cm", "Zentimeter", "zentimeter"),
        "inch": ("Zoll", "zoll", '"', "″"),
        "m": ("m", "Meter"),
    },
    "uk": {
        "mm": ("мм", "міліметрів", "міліметри", "mm"),
        "cm": ("см", "сантиметрів", "сантиметри", "см."),
        "inch": ("дюймів", "дюйма", "дюйми", '"'),
        "m": ("м", "метра"),
    },
    "fr": {
        "mm": ("mm", "millimètres", "millimetres"),
        "cm": ("cm", "centimètres", "centimetres"),
        "inch": ("pouces", "po", '"', "pouce"),
        "m": ("m", "mètre"),
    },
    "es": {
        "mm": ("mm", "milímetros", "milimetros"),
        "cm": ("cm", "centímetros", "centimetros"),
        "inch": ("pulgadas", "pulg", '"', "pulgada"),
        "m": ("m", "metros"),
    },
    "it": {
        "mm": ("mm", "millimetri"),
        "cm": ("cm", "centimetri"),
        "inch": ("pollici", '"', "pollice"),
        "m": ("m", "metri"),
    },
    "cs": {
        "mm": ("mm", "milimetrů", "milimetry"),
        "cm": ("cm", "centimetrů", "centimetry", "centimetru"),
        "inch": ("palců", "palce", '"', "coulů"),
        "m": ("m", "metru"),
    },
}
BEFORE = {
    "en": ("it's ", "It is "), "pl": ("jest ", "mam "), "de": ("es sind ", "das sind "),
    "uk": ("це ", "буде "), "fr": ("ça fait ", "c'est "), "es": ("son ", "mide "),
    "it": ("sono ", "misura "), "cs": ("je to ", "mám "),
}  # fmt: skip
ANY_BEFORE = ("", "", "", "", " ", "= ", "\u200b", "\n")
AFTER = ("", "", "", "", " ", ".", "!", "\n", " 👍", " ")
FRACTIONS = {
    "1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞",
}  # fmt: skip
RAISED, LOWERED = (
    str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹"),
    str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉"),
)
OTHER_DIGITS = (
    str.maketrans("0123456789", "０１２３４５６７８９"),
    str.maketrans("0123456789", "٠١٢٣٤٥٦٧٨٩"),
    str.maketrans("0123456789", "०१२३४५६७८९"),
)


@dataclass(frozen=True)
class Typed:
    """One answer as somebody would type it, and the length that was meant."""

    text: str
    measure: Measure
    language: str
    meant: Fraction
    unit: str
    bare: bool


Answers = list[tuple[Typed, Reading]]


def pinted(number: Fraction, unit: str) -> Fraction:
    """A length in mm, worked out by pint."""
    return Fraction(REGISTRY.Quantity(number, unit).to("mm").magnitude)


def typed(chance: random.Random) -> Typed:
    """One answer: a length, a unit, a way to write it, some noise."""
    measure = chance.choice(list(MEANT))
    language = chance.choice(list(UNIT_WORDS))
    style = chance.choices(
        ["mm", "cm", "inch", "m", "cm and mm", "feet"], weights=[34, 38, 20, 3, 3, 2]
    )[0]
    if style == "cm and mm":
        return in_two_parts(chance, measure, language)
    if style == "feet" and MEANT[measure][0] > 100:
        return in_feet(chance, measure, language)
    unit = "inch" if style == "feet" else style
    # a bare number of inches is written by who has an inch tape only
    bare = unit != "m" and chance.random() < 0.5
    digits, number = (
        fractional(chance, *MEANT[measure]) if unit == "inch" else metric(chance, measure, unit)
    )
    word = "" if bare else chance.choice(UNIT_WORDS[language][unit])
    text = f"{digits}{chance.choice(['', ' ', chr(160)])}{word}" if word else digits
    return noisy(chance, text, measure, language, pinted(number, unit), unit, bare=bare)


def noisy(
    chance: random.Random, text: str, measure: Measure, language: str, meant: Fraction, unit: str,
    *, bare: bool = False,
) -> Typed:  # fmt: skip
    """The answer among what people type round it, now and then in digits of another script."""
    if chance.random() < 0.03:
        text = text.translate(chance.choice(OTHER_DIGITS))
    before = chance.choice([*ANY_BEFORE, *BEFORE[language]])
    text = f"{before}{text}{chance.choice(AFTER)}"
    return Typed(text, measure, language, meant, unit, bare)


def metric(chance: random.Random, measure: Measure, unit: str) -> tuple[str, Fraction]:
    """A length in mm, cm or m, to the millimetre or half of it, with either mark."""
    low, high = MEANT[measure]
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


def in_two_parts(chance: random.Random, measure: Measure, language: str) -> Typed:
    """A length as centimetres and millimetres."""
    length = chance.randint(*MEANT[measure])
    centimetres, millimetres = divmod(length, 10)
    words = UNIT_WORDS[language]
    text = f"{centimetres} {words['cm'][0]} {millimetres} {words['mm'][0]}"
    meant = pinted(Fraction(centimetres), "cm") + pinted(Fraction(millimetres), "mm")
    return noisy(chance, text, measure, language, meant, "cm and mm")


def in_feet(chance: random.Random, measure: Measure, language: str) -> Typed:
    """A length as feet, inches and 8ths of an inch."""
    low, high = MEANT[measure]
    eighths = chance.randint(max(96, int(low / 25.4 * 8) + 1), max(97, int(high / 25.4 * 8)))
    feet, rest = divmod(eighths, 96)
    inches, part = divmod(rest, 8)
    shown = f" {Fraction(part, 8)}" if part else ""
    prime, double = chance.choice([("'", '"'), ("′", "″"), ("’", "”")])
    text = f"{feet}{prime}{chance.choice(['', ' '])}{inches}{shown}{double}"
    meant = pinted(Fraction(feet), "foot") + pinted(Fraction(rest, 8), "inch")
    return noisy(chance, text, measure, language, meant, "feet")


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
    small = (
        f"{str(lowest.numerator).translate(RAISED)}⁄{str(lowest.denominator).translate(LOWERED)}"
    )
    signs = [part, part.replace("/", "⁄"), small, *([FRACTIONS[part]] if part in FRACTIONS else [])]
    sign = chance.choice(signs)
    joint = chance.choice([" ", "-"]) if sign[0].isascii() else chance.choice(["", " "])
    return (f"{whole}{joint}{sign}" if whole else sign), number


@pytest.fixture(scope="module", params=[FEW, pytest.param(MANY, marks=pytest.mark.slow)])
def answers(request: pytest.FixtureRequest) -> Answers:
    """The generated answers, the same ones every time, and how each was read."""
    chance = random.Random(SEED + request.param)
    made = [typed(chance) for _ in range(request.param)]
    return [
        (answer, read(answer.text, answer.measure, language=answer.language)) for answer in made
    ]


def test_no_generated_answer_is_silently_wrong(answers: Answers) -> None:
    """What is taken is exactly the length that was meant, every time."""
    wrong = [
        (answer, reading)
        for answer, reading in answers
        if reading.outcome is Outcome.TAKE and reading.values != (answer.meant,)
    ]
    assert wrong == []


def test_readable_answers_are_seldom_asked_about(answers: Answers) -> None:
    """At most 3 in 100 of all, and 15 in 100 of the bare inches, cost a question."""
    counts: Counter[tuple[str, bool]] = Counter()
    asked: Counter[tuple[str, bool]] = Counter()
    for answer, reading in answers:
        kind = (answer.unit, answer.bare)
        counts[kind] += 1
        asked[kind] += reading.outcome is not Outcome.TAKE
    print({kind: f"{asked[kind]} of {counts[kind]}" for kind in sorted(counts)})
    assert sum(asked.values()) <= NEEDLESS * len(answers)
    assert asked["inch", True] <= NEEDLESS_BARE_INCHES * counts["inch", True]


def test_every_language_is_read_as_well_as_the_others(answers: Answers) -> None:
    """No language costs its people more than 5 questions in 100 answers."""
    for language in UNIT_WORDS:
        own = [reading for answer, reading in answers if answer.language == language]
        asked = [reading for reading in own if reading.outcome is not Outcome.TAKE]
        assert len(asked) <= 0.05 * len(own), language


def test_the_unit_that_was_typed_comes_back(answers: Answers) -> None:
    """The echo can use the unit the person used."""
    units = {"mm": Unit.MM, "cm": Unit.CM, "inch": Unit.IN, "m": Unit.M}
    for answer, reading in answers:
        if reading.outcome is Outcome.TAKE and answer.unit in units:
            assert reading.unit is units[answer.unit], answer
