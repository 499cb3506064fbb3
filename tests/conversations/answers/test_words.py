"""The words of each language."""

from __future__ import annotations

from fractions import Fraction

import pytest

from conversations.answers.reading import Outcome, Reason, read
from conversations.answers.text import normalise
from conversations.answers.units import Symbol
from conversations.answers.words import LANGUAGES, Kind, rows, vocabulary
from sizing.measures import Measure

SECTIONS = {"units", "unsure", "torn", "phrases", "own"}
NEEDED = {kind.value for kind in Kind} - {"pair", "dozen", "or", "and"}
COMPLETE = ("en", "pl")


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_file_has_what_is_needed_and_nothing_unknown(language: str) -> None:
    """Each language knows its units and says everything an answer may say."""
    table = rows(language)
    assert set(table) <= SECTIONS
    assert {"mm", "cm", "m", "in", "ft"} <= set(table["units"])
    assert set(table["phrases"]) >= NEEDED
    assert set(table["phrases"]) <= {kind.value for kind in Kind}


@pytest.mark.parametrize("language", COMPLETE)
def test_the_first_two_languages_are_complete(language: str) -> None:
    """English and Polish have words for every kind."""
    own = rows(language).get("own", {}).get("phrases", {})
    assert set(rows(language)["phrases"]) | set(own) == {kind.value for kind in Kind}


def test_no_shared_word_means_two_things() -> None:
    """A word understood in every language has one meaning, else it is among the own ones."""
    seen: dict[str, set[str]] = {}
    for language in LANGUAGES:
        table = rows(language)
        for kind, phrases in table["phrases"].items():
            for phrase in phrases:
                seen.setdefault(phrase.casefold(), set()).add(kind)
    assert {word: kinds for word, kinds in seen.items() if len(kinds) > 1} == {}


def test_no_shared_unit_word_means_two_units() -> None:
    """A unit word understood in every language is one unit."""
    seen: dict[str, set[str]] = {}
    for language in LANGUAGES:
        for section in ("units", "unsure", "torn"):
            for symbol, words in rows(language).get(section, {}).items():
                for word in words:
                    seen.setdefault(word.casefold(), set()).add(symbol)
    assert {word: units for word, units in seen.items() if len(units) > 1} == {}


def test_a_colliding_word_counts_only_in_its_own_language() -> None:
    """`po` is inches in French alone, `ok.` means about in Polish alone."""
    assert "po" not in vocabulary(None).units
    assert "po" not in vocabulary("pl").units
    assert vocabulary("fr").units["po"].symbol is Symbol.IN
    assert vocabulary("pl").phrases["ok"][-1].kind is Kind.HEDGE
    assert "ok" not in vocabulary(None).phrases


def test_the_chosen_language_comes_before_the_others() -> None:
    """`to` is a range in English and says nothing in Polish."""
    assert vocabulary("en").phrases["to"][-1].kind is Kind.OR
    assert vocabulary("pl").phrases["to"][-1].kind is Kind.FILLER


def test_all_languages_are_understood_at_once() -> None:
    """Whatever language is chosen, the units of the others count."""
    for language in (None, *LANGUAGES):
        assert vocabulary(language).units[normalise("дюймів")].symbol is Symbol.IN
        assert vocabulary(language).units["cala"].symbol is Symbol.IN


def test_longer_phrases_come_first() -> None:
    """Of the phrases that begin alike the longest is tried first."""
    lengths = [len(phrase.words) for phrase in vocabulary(None).phrases["jak"]]
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[0] > lengths[-1]


SAID = {
    Kind.HEDGE: ("{} 36 cm", Measure.SIDE_TO_SIDE, Reason.HEDGED),
    Kind.EXACT: ("{} 36 cm", Measure.SIDE_TO_SIDE, Outcome.TAKE),
    Kind.INSIDE: ("343 {}", Measure.SIDE_TO_SIDE, Reason.INSIDE),
    Kind.OUTSIDE: ("343 {}", Measure.INSIDE_ALONG, Reason.INSIDE),
    Kind.WITHOUT_LUGS: ("435 {}", Measure.LUG_TO_LUG, Reason.WITHOUT_LUGS),
    Kind.WITH_LUGS: ("435 {}", Measure.SIDE_TO_SIDE, Reason.WITHOUT_LUGS),
    Kind.HALF: ("14 {}", Measure.SIDE_TO_SIDE, Outcome.TAKE),
    Kind.BY: ("435 {} 300", Measure.SIDE_TO_SIDE, Outcome.PROPOSE),
    Kind.OR: ("363 {} 364", Measure.SIDE_TO_SIDE, Reason.TWO_READINGS),
    Kind.AND: ("435 {} 300", Measure.SIDE_TO_SIDE, Outcome.PROPOSE),
    Kind.COUNTED: ("10 {}", Measure.FRAMES_HELD, Outcome.TAKE),
    Kind.FILLER: ("{} 363", Measure.SIDE_TO_SIDE, Outcome.TAKE),
    Kind.PAIR: ("{}", Measure.PIECES, Outcome.PROPOSE),
    Kind.DOZEN: ("{}", Measure.PIECES, Outcome.PROPOSE),
    Kind.DONT_KNOW: ("{}", Measure.SIDE_TO_SIDE, Reason.DONT_KNOW),
    Kind.HELP: ("{}", Measure.SIDE_TO_SIDE, Reason.HELP),
    Kind.REUSE: ("{}", Measure.SIDE_TO_SIDE, Reason.REUSE),
    Kind.LATER: ("{}", Measure.SIDE_TO_SIDE, Reason.LATER),
    Kind.PERSON: ("{}", Measure.SIDE_TO_SIDE, Reason.PERSON),
}
"""An answer with the phrase in it, the question, and what it comes to."""


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_phrase_does_what_its_list_says(language: str) -> None:
    """Each phrase of a language, said in that language, has its effect and no other."""
    own = rows(language).get("own", {}).get("phrases", {})
    overridden = {phrase for phrases in own.values() for phrase in phrases}
    wrong = []
    for table in (rows(language)["phrases"], own):
        for kind, phrases in table.items():
            form, measure, effect = SAID[Kind(kind)]
            for phrase in phrases:
                if table is not own and phrase in overridden:
                    continue
                reading = read(form.format(phrase), measure, language=language)
                if effect not in {reading.outcome, reading.reason}:
                    wrong.append((kind, phrase, reading.outcome, reading.reason))
    assert wrong == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_unit_word_is_its_unit(language: str) -> None:
    """A length with each unit word of a language is that length."""
    numbers = {"mm": "363", "cm": "36.3", "m": "0.363", "in": "14 1/8", "ft": "1"}
    meant = {"in": Fraction("358.775"), "ft": Fraction("304.8")}
    tables = (rows(language), rows(language).get("own", {}))
    words = [
        (symbol, word)
        for table in tables
        for symbol, words in table.get("units", {}).items()
        for word in words
        if symbol != "dm"
    ]
    wrong = []
    for symbol, word in words:
        reading = read(f"{numbers[symbol]} {word}", Measure.SIDE_TO_SIDE, language=language)
        if reading.values != (meant.get(symbol, Fraction(363)),):
            wrong.append((word, reading))
    assert wrong == []
