"""People and their sessions: `people`, `sessions`."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from bot.storage.sealing import Sealer
from bot.storage.times import stamp
from conversations.session import Session, load

__all__ = [
    "channel_of", "contact_of", "keep_contact", "keep_session", "language_of", "lose", "meet",
    "session_of", "speak",
]  # fmt: skip

CONTACT = "people.contact_sealed"
SESSION = "sessions.session_sealed"


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


def lose(connection: sqlite3.Connection, person: str) -> None:
    """Nothing reaches the person until they write again."""
    connection.execute("UPDATE people SET reachable = 0 WHERE person = ?", [person])


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


def session_of(connection: sqlite3.Connection, sealer: Sealer, person: str) -> Session:
    """What is remembered of the person's conversation; a fresh session for somebody new."""
    row = connection.execute(
        "SELECT session_sealed FROM sessions WHERE person = ?", [person]
    ).fetchone()
    if row is None:
        return Session(person=person)
    return load(sealer.open(row["session_sealed"], SESSION))


def keep_session(
    connection: sqlite3.Connection, sealer: Sealer, session: Session, at: datetime
) -> None:
    """Remember the conversation as it now stands."""
    connection.execute(
        "INSERT INTO sessions (person, schema_version, stored_at, session_sealed)"
        " VALUES (:person, :version, :at, :sealed)"
        " ON CONFLICT (person) DO UPDATE SET"
        " schema_version = :version, stored_at = :at, session_sealed = :sealed",
        {
            "person": session.person,
            "version": session.schema_version,
            "at": stamp(at),
            "sealed": sealer.seal(session.model_dump_json(), SESSION),
        },
    )
