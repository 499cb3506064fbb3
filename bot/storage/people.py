"""Who wrote, by which channel, in which language: `people`."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from bot.storage.sealing import Sealer
from bot.storage.times import stamp

__all__ = [
    "channel_of",
    "contact_of",
    "keep_contact",
    "language_of",
    "lose",
    "meet",
    "reachable",
    "speak",
]

CONTACT = "people.contact_sealed"


def meet(connection: sqlite3.Connection, person: str, channel: str, at: datetime) -> None:
    """The person wrote by this channel: known from now on, and to be reached there."""
    connection.execute(
        "INSERT INTO people (person, channel, language, first_seen, last_seen)"
        " VALUES (:person, :channel, 'en', :at, :at)"
        " ON CONFLICT (person) DO UPDATE SET channel = :channel, last_seen = :at, reachable = 1",
        {"person": person, "channel": channel, "at": stamp(at)},
    )


def speak(connection: sqlite3.Connection, person: str, language: str) -> None:
    """The person reads this language."""
    connection.execute(
        "UPDATE people SET language = ? WHERE person = ? AND language <> ?",
        [language, person, language],
    )


def language_of(connection: sqlite3.Connection, person: str) -> str:
    """The language the person reads; English for somebody unknown."""
    row = connection.execute("SELECT language FROM people WHERE person = ?", [person]).fetchone()
    return "en" if row is None else str(row["language"])


def lose(connection: sqlite3.Connection, person: str) -> bool:
    """Nothing reaches the person until they write again; False where that was known."""
    cursor = connection.execute(
        "UPDATE people SET reachable = 0 WHERE person = ? AND reachable = 1", [person]
    )
    return cursor.rowcount == 1


def reachable(connection: sqlite3.Connection, person: str) -> bool:
    """Whether what is said to the person arrives, as far as is known."""
    row = connection.execute("SELECT reachable FROM people WHERE person = ?", [person]).fetchone()
    return row is None or bool(row["reachable"])


def channel_of(connection: sqlite3.Connection, person: str) -> str | None:
    """By which channel the person is reached; None for somebody unknown."""
    row = connection.execute("SELECT channel FROM people WHERE person = ?", [person]).fetchone()
    return None if row is None else str(row["channel"])


def contact_of(connection: sqlite3.Connection, sealer: Sealer, person: str) -> str | None:
    """How the person wants to be reached, if they said so."""
    row = connection.execute(
        "SELECT contact_sealed FROM people WHERE person = ?", [person]
    ).fetchone()
    if row is None or row["contact_sealed"] is None:
        return None
    return sealer.open(row["contact_sealed"], CONTACT)


def keep_contact(connection: sqlite3.Connection, sealer: Sealer, person: str, text: str) -> None:
    """Keep how the person wants to be reached."""
    connection.execute(
        "UPDATE people SET contact_sealed = ? WHERE person = ?",
        [sealer.seal(text, CONTACT), person],
    )
