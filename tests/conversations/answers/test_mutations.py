"""Each rule of the reading is needed: with any one switched off, an answer of the tables is read
otherwise."""

from __future__ import annotations

import csv
import importlib
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from conversations.answers import Unit, read, reading, units
from conversations.answers.words import Kind, UnitWord, Vocabulary, vocabulary
from sizing.measures import Measure

Understood = list[tuple[Any, ...]]
TABLES = ("answers.csv", "own_answers.csv")
SEVERAL, LENGTHS, TEXT = "several", "lengths", "text"

NOTHING: Callable[..., Any] = lambda *_args, **_named: None  # noqa: E731
NO: Callable[..., Any] = lambda *_args, **_named: False  # noqa: E731
SAME: Callable[..., Any] = lambda first, *_args, **_named: first  # noqa: E731
SECOND: Callable[..., Any] = lambda _first, second, *_args, **_named: second  # noqa: E731
SAME_LIST: Callable[..., Any] = lambda first, *_args, **_named: list(first)  # noqa: E731
NO_LIST: Callable[..., Any] = lambda *_args, **_named: []  # noqa: E731
SAME_SIGNS: Callable[..., Any] = lambda found: found[0]  # noqa: E731

RULES: dict[str, tuple[str, str, Callable[..., Any]]] = {
    "wishes come before numbers": ("reading", "_wish", NOTHING),
    "inside is not outside": ("reading", "_other_side", NO),
    "lugs count where they are asked for": ("reading", "_other_lugs", NO),
    "a count is not a length": ("reading", "_is_count", NO),
    "telephone and order numbers": ("reading", "_unless_identifier", SECOND),
    "what stands beside a number": ("reading", "_as_said", SAME),
    "o and l among digits": ("reading", "repair_digits", SAME),
    "a fraction stands apart": (TEXT, "_spaced_fractions", SAME),
    "other digits and signs": (TEXT, "_plain", SAME_SIGNS),
    "one script in a word": (TEXT, "_one_script", SAME_SIGNS),
    "two fractions in one": (LENGTHS, "_two_lengths", NO),
    "a moved decimal mark": (LENGTHS, "_mark_moved", NO_LIST),
    "the same length twice": (SEVERAL, "_same_length", NOTHING),
    "nearly the same twice": (SEVERAL, "_nearly_same", NO),
    "dictated digit by digit": (SEVERAL, "_dictated", NOTHING),
    "a semicolon for a comma": (SEVERAL, "_decimal", NOTHING),
    "several answers at once": (SEVERAL, "read_bundle", NOTHING),
    "one unit for all": ("bundles", "_with_common_unit", SAME_LIST),
    "a length is not a count": ("counts", "_is_length", NO),
}


def rows() -> list[dict[str, str]]:
    """All raw answers of the tables."""
    found = []
    for name in TABLES:
        with Path(__file__).with_name(name).open(encoding="utf-8", newline="") as file:
            found += list(csv.DictReader(file))
    return found


ROWS = rows()


def understood(row: dict[str, str]) -> tuple[Any, ...]:
    """How one answer of the tables is read."""
    usual = Unit(row["usual_unit"]) if row["usual_unit"] else None
    one = read(
        row["raw"], Measure(row["measure"]), language=row["language"] or None, usual_unit=usual
    )
    return (one.outcome, one.values, one.exact, one.reason)


def read_otherwise(before: Understood) -> bool:
    """Whether any answer of the tables is read otherwise than before."""
    return any(understood(row) != one for row, one in zip(ROWS, before, strict=True))


@pytest.fixture(scope="module")
def as_it_is() -> Understood:
    """How they are read with all rules."""
    return [understood(row) for row in ROWS]


@pytest.mark.parametrize("rule", RULES)
def test_every_rule_of_the_reading_is_needed(
    rule: str, as_it_is: Understood, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without the rule at least one answer of the tables comes out otherwise."""
    module, name, off = RULES[rule]
    monkeypatch.setattr(importlib.import_module(f"conversations.answers.{module}"), name, off)
    assert read_otherwise(as_it_is)


@pytest.mark.parametrize("kind", list(Kind))
def test_every_kind_of_words_is_needed(
    kind: Kind, as_it_is: Understood, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where nobody knows the words of a kind, an answer of the tables comes out otherwise."""

    @cache
    def without(language: str | None) -> Vocabulary:
        words = vocabulary(language)
        phrases = {
            first: tuple(phrase for phrase in some if phrase.kind is not kind)
            for first, some in words.phrases.items()
        }
        return Vocabulary(words.units, phrases)

    monkeypatch.setattr(reading, "vocabulary", without)
    assert read_otherwise(as_it_is)


@pytest.mark.parametrize("symbol", list(units.Symbol))
def test_every_unit_is_needed(
    symbol: units.Symbol, as_it_is: Understood, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where nobody knows the words of a unit, an answer of the tables comes out otherwise."""

    @cache
    def without(language: str | None) -> Vocabulary:
        words = vocabulary(language)
        known: dict[str, UnitWord] = {
            word: unit for word, unit in words.units.items() if unit.symbol is not symbol
        }
        return Vocabulary(known, words.phrases)

    monkeypatch.setattr(reading, "vocabulary", without)
    assert read_otherwise(as_it_is)
