"""Reminders: `due`. At most one of a name for each person."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime

from bot.storage.times import moment, stamp

__all__ = ["Reminder", "cancel", "due_until", "next_moment", "remind", "take"]


@dataclass(frozen=True, slots=True)
class Reminder:
    """`what` is to happen to the person's conversation at that moment."""

    person: str
    what: str
    at: datetime


def remind(connection: sqlite3.Connection, person: str, what: str, at: datetime) -> None:
    """Have it happen at that moment, instead of when it was to happen before."""
    connection.execute(
        "INSERT INTO due (person, what, at) VALUES (:person, :what, :at)"
        " ON CONFLICT (person, what) DO UPDATE SET at = :at",
        {"person": person, "what": what, "at": stamp(at)},
    )


def cancel(connection: sqlite3.Connection, person: str, beginning: str) -> None:
    """Forget the person's reminders whose name begins so."""
    connection.execute(
        "DELETE FROM due WHERE person = ? AND substr(what, 1, ?) = ?",
        [person, len(beginning), beginning],
    )


def take(connection: sqlite3.Connection, person: str, what: str, at: datetime) -> bool:
    """Let this very reminder happen now; False where it was put off, cancelled, or happened."""
    taken = connection.execute(
        "DELETE FROM due WHERE person = ? AND what = ? AND at = ?", [person, what, stamp(at)]
    ).rowcount
    return taken > 0


def due_until(connection: sqlite3.Connection, now: datetime) -> list[Reminder]:
    """What is due by `now`, in order."""
    rows = connection.execute(
        "SELECT person, what, at FROM due WHERE at <= ? ORDER BY at, person, what", [stamp(now)]
    )
    return [Reminder(row["person"], row["what"], moment(row["at"])) for row in rows]


def next_moment(connection: sqlite3.Connection) -> datetime | None:
    """When something is due next."""
    row = connection.execute("SELECT min(at) AS next FROM due").fetchone()
    return None if row["next"] is None else moment(row["next"])
