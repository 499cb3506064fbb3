"""What chats of staff need kept: the words one waits for, and the cards that show an order."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime, timedelta

from bot.storage.times import stamp

__all__ = [
    "WAITS", "Card", "Wanted", "await_words", "drop_card", "keep_card", "outdated", "update_card",
    "use_words", "wait_no_more",
]  # fmt: skip

WAITS = timedelta(minutes=30)
"""So long the next message counts as the words that were asked for."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is done with the words that come next; `version` None: the newest."""

    verb: str
    number: str
    version: int | None
    measure: str | None = None


@dataclass(frozen=True, slots=True)
class Card:
    """A message that shows an order. `last`: no newer one shows the same order to that person;
    `here`: the person works here today."""

    person: str
    message: int
    number: str
    last: bool
    here: bool


def await_words(connection: sqlite3.Connection, person: str, wanted: Wanted, at: datetime) -> None:
    """What this person writes next is taken as the words for that."""
    connection.execute(
        "INSERT OR REPLACE INTO staff_words (person, verb, number, version, measure, at)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        [person, wanted.verb, wanted.number, wanted.version, wanted.measure, stamp(at)],
    )


def use_words(
    connection: sqlite3.Connection, person: str, event: str, at: datetime
) -> Wanted | None:
    """What the message `event` gives its words for; None where none are waited for.

    The same message that comes again, after a kill, gives them again; no other one does.
    """
    row = connection.execute(
        "UPDATE staff_words SET event = :event WHERE person = :person AND at > :since"
        " AND (event IS NULL OR event = :event) RETURNING verb, number, version, measure",
        {"event": event, "person": person, "since": stamp(at - WAITS)},
    ).fetchone()
    return None if row is None else Wanted(**dict(row))


def wait_no_more(connection: sqlite3.Connection, person: str) -> None:
    """Something else was done: what is written next is no longer waited for."""
    connection.execute("DELETE FROM staff_words WHERE person = ?", [person])


def keep_card(
    connection: sqlite3.Connection, person: str, message: int, number: str, version: int, stage: str
) -> None:
    """That message shows the person this order as it now stands."""
    connection.execute(
        "INSERT OR REPLACE INTO staff_cards (person, message, number, version, stage)"
        " VALUES (?, ?, ?, ?, ?)",
        [person, message, number, version, stage],
    )


def outdated(connection: sqlite3.Connection) -> list[Card]:
    """The cards that offer what no longer is: the order went on, a newer card shows it, or who
    has it left."""
    rows = connection.execute(
        "SELECT person, message, number, last, here FROM ("
        " SELECT one.*, orders.stage AS stage_now, orders.version AS version_now,"
        "  NOT EXISTS (SELECT 1 FROM staff_cards AS newer WHERE newer.person = one.person"
        "   AND newer.number = one.number AND newer.message > one.message) AS last,"
        "  EXISTS (SELECT 1 FROM staff WHERE address = one.person AND active = 1) AS here"
        " FROM staff_cards AS one JOIN orders USING (number))"
        " WHERE NOT last OR NOT here OR stage <> stage_now OR version <> version_now"
        " ORDER BY message"
    )
    return [
        Card(row["person"], row["message"], row["number"], bool(row["last"]), bool(row["here"]))
        for row in rows
    ]


def update_card(connection: sqlite3.Connection, card: Card, version: int, stage: str) -> None:
    """The message shows the order as it is in this version, at this stage."""
    connection.execute(
        "UPDATE staff_cards SET version = ?, stage = ? WHERE person = ? AND message = ?",
        [version, stage, card.person, card.message],
    )


def drop_card(connection: sqlite3.Connection, card: Card) -> None:
    """The message offers nothing any more."""
    connection.execute(
        "DELETE FROM staff_cards WHERE person = ? AND message = ?", [card.person, card.message]
    )
