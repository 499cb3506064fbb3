"""What staff tap and type, read without believing it.

A button carries verb, number and version; what it names is checked in the core like everything
that comes from outside. Whatever can be tapped can be typed, in the words of any language.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from bot.desk.asking import MEASURES, named
from bot.storage.staff_chats import Wanted
from conversations import reference
from conversations.events import Desk, DeskVerb
from conversations.locale import catalogue, languages
from conversations.review import MOVES

__all__ = [
    "ALONE", "LEAVE", "QUEUE", "SHOW", "VERSION", "Reading", "commands", "read_tap", "read_words",
    "spoken", "with_words",
]  # fmt: skip

VERSION = "d1"
SHOW, QUEUE, LEAVE, ALONE = "show", "queue", "leave", "alone"
"""What a button can stand for beside the verbs; `alone`: a question without a note."""
_TAP = re.compile(rf"{VERSION}:([a-z-]+)(?::([0-9]{{8}}):([0-9]{{1,4}})(?::([a-z_]+))?)?")
_LINE = re.compile(
    r"/?([^\W\d_][^\d\n]*?)\s+((?:[0-9][ \u00a0.-]?){7}[0-9])"
    r"(?:\s+v([0-9]{1,4}))?(?:\s+([\s\S]+))?",
    re.IGNORECASE,
)
INSTEAD = "+"
"""A line of a turn-down that begins so says what would work."""
_BARE = str.maketrans("łŁ", "lL")


@dataclass(frozen=True, slots=True)
class Reading:
    """What a member of staff wants: an action, a card, the queue, or help (all None)."""

    event: Desk | None = None
    show: str | None = None
    queue: bool = False
    leave: bool = False
    """Nothing, after all."""
    choose: tuple[str, int | None] | None = None
    """Which measure of this order and version is to be asked for?"""
    words: Wanted | None = None
    """Words are wanted for this; they may come with the next message."""


def read_tap(data: str, base: Mapping[str, Any]) -> Reading:
    """What a tapped button of a card stands for."""
    match = _TAP.fullmatch(data)
    if match is None:
        return Reading()
    if match[1] in (QUEUE, LEAVE):
        return Reading(queue=match[1] == QUEUE, leave=match[1] == LEAVE)
    if match[2] is None or match[1] not in {*DeskVerb, SHOW, ALONE}:
        return Reading()
    number, version, measure = match[2], int(match[3]), match[4]
    if match[1] == SHOW:
        return Reading(show=number)
    verb = DeskVerb.ASK if match[1] == ALONE else DeskVerb(match[1])
    if verb is DeskVerb.ASK and measure not in MEASURES:
        return Reading(choose=(number, version))
    if match[1] != ALONE and (verb is DeskVerb.ASK or _needs_words(verb)):
        return Reading(words=Wanted(verb.value, number, version, measure))
    return Reading(event=Desk(verb=verb, number=number, version=version, measure=measure, **base))


def read_words(text: str, base: Mapping[str, Any]) -> Reading:
    """What was typed: an order number, `queue`, or a verb with a number and words."""
    said = text.strip()
    if reference.is_valid(said):
        return Reading(show=reference.compact(said))
    if _bare(said.lstrip("/")) in (*commands()[QUEUE], "start"):
        return Reading(queue=True)
    match = _LINE.fullmatch(said)
    verb = _verb(match[1]) if match else None
    if match is None or verb is None or not reference.is_valid(match[2]):
        return Reading()
    number, version = reference.compact(match[2]), int(match[3]) if match[3] else None
    words, measure = (match[4] or "").strip(), None
    if verb is DeskVerb.ASK:
        measure, words = named(words)
        if measure is None:
            return Reading(choose=(number, version))
    elif _needs_words(verb) and not words:
        return Reading(words=Wanted(verb.value, number, version))
    return Reading(event=with_words(Wanted(verb.value, number, version, measure), words, base))


def with_words(wanted: Wanted, words: str, base: Mapping[str, Any]) -> Desk:
    """What was wanted, with these words."""
    verb, instead = DeskVerb(wanted.verb), ""
    if verb is DeskVerb.TURN_DOWN:
        words, _, instead = f"\n{words}".partition(f"\n{INSTEAD}")
    return Desk(
        verb=verb, number=wanted.number, version=wanted.version, measure=wanted.measure,
        note=words.strip(), would_work=instead.strip(), **base,
    )  # fmt: skip


def _needs_words(verb: DeskVerb) -> bool:
    return verb in MOVES and MOVES[verb].needs_note


def spoken(name: str, language: str) -> str:
    """The word of that language for a verb, or for the queue."""
    return catalogue(language).text(f"telegram.staff.word.{name}").split(",")[0].strip()


@cache
def commands() -> dict[str, frozenset[str]]:
    """For each verb that can be done, and for the queue, the words of all languages."""
    return {
        name: frozenset(
            _bare(word)
            for language in languages()
            for word in catalogue(language).text(f"telegram.staff.word.{name}").split(",")
        )
        for name in (*(verb.value for verb in MOVES), QUEUE)
    }


def _verb(word: str) -> DeskVerb | None:
    found = [name for name, words in commands().items() if _bare(word) in words]
    return DeskVerb(found[0]) if found and found[0] != QUEUE else None


def _bare(word: str) -> str:
    """In small letters and without their marks, as a hurried thumb types it."""
    apart = unicodedata.normalize("NFKD", word.translate(_BARE).casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign)).strip()
