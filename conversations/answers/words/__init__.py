"""What words mean in an answer: one TOML file a language, read once when first used.

Words of all languages are understood at once. A word which means something else in another
language stands under `own`: it counts so only where its language was chosen, and there comes
before what the others say.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any

from conversations.answers.text import normalise
from conversations.answers.units import Symbol

__all__ = ["LANGUAGES", "Kind", "Phrase", "UnitWord", "Vocabulary", "rows", "vocabulary"]

LANGUAGES: tuple[str, ...] = ("en", "pl", "de", "uk", "fr", "es", "it", "cs")


class Kind(StrEnum):
    """What a phrase says about the answer."""

    HEDGE = "hedge"
    EXACT = "exact"
    INSIDE = "inside"
    OUTSIDE = "outside"
    WITHOUT_LUGS = "without-lugs"
    WITH_LUGS = "with-lugs"
    HALF = "half"
    BY = "by"
    OR = "or"
    AND = "and"
    COUNTED = "counted"
    """Things that are counted, not measured: frames, pieces."""
    FILLER = "filler"
    PAIR = "pair"
    DOZEN = "dozen"

    DONT_KNOW = "dont-know"
    HELP = "help"
    REUSE = "reuse"
    LATER = "later"
    PERSON = "person"


@dataclass(frozen=True, slots=True)
class UnitWord:
    """A unit as typed; an unsure one is only ever proposed, a torn one may be inches as well."""

    symbol: Symbol
    unsure: bool = False
    torn: bool = False


@dataclass(frozen=True, slots=True)
class Phrase:
    words: tuple[str, ...]
    kind: Kind


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """The words understood for one chosen language, or for none."""

    units: Mapping[str, UnitWord]
    phrases: Mapping[str, tuple[Phrase, ...]]
    """By first word, longest first."""


@cache
def rows(language: str) -> Mapping[str, Any]:
    """The file of one language as it stands."""
    text = files(__name__).joinpath(f"{language}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@cache
def vocabulary(language: str | None) -> Vocabulary:
    """The words of all languages, and the own ones of `language` where one was chosen."""
    units: dict[str, UnitWord] = {}
    kinds: dict[tuple[str, ...], Kind] = {}
    tables = [rows(each) for each in LANGUAGES]
    if language in LANGUAGES:
        tables.append(rows(language).get("own", {}))
    for table in tables:
        units.update(_units(table))
        kinds.update(_phrases(table))
    return Vocabulary(units, _by_first_word(kinds))


def _units(table: Mapping[str, Any]) -> Iterator[tuple[str, UnitWord]]:
    for section in ("units", "unsure", "torn"):
        for symbol, words in table.get(section, {}).items():
            for word in words:
                unsure, torn = section != "units", section == "torn"
                yield normalise(word), UnitWord(Symbol(symbol), unsure, torn)


def _phrases(table: Mapping[str, Any]) -> Iterator[tuple[tuple[str, ...], Kind]]:
    for kind, phrases in table.get("phrases", {}).items():
        for phrase in phrases:
            yield tuple(normalise(phrase).replace("-", " ").split()), Kind(kind)


def _by_first_word(kinds: Mapping[tuple[str, ...], Kind]) -> dict[str, tuple[Phrase, ...]]:
    found: dict[str, list[Phrase]] = {}
    for words in sorted(kinds, key=len, reverse=True):
        found.setdefault(words[0], []).append(Phrase(words, kinds[words]))
    return {first: tuple(phrases) for first, phrases in found.items()}
