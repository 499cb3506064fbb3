"""What arrived: `inbox`. A row is the memory that an event was taken, and of what it said."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime

from bot.storage.sealing import Sealer
from bot.storage.times import moment, stamp
from conversations.events import Desk, Event, event_from_json

__all__ = [
    "Arrived", "Heard", "Sender", "arrive", "arrived", "bury", "count_try", "drop_raw", "finish",
    "heard_from", "newest_of", "oldest_waiting", "sender_of", "waiting",
]  # fmt: skip

RAW = "inbox.raw_sealed"


@dataclass(frozen=True, slots=True)
class Arrived:
    """An event that was kept and has had no effect yet."""

    seq: int
    channel: str
    event: Event


@dataclass(frozen=True, slots=True)
class Sender:
    """Who sent an event: the person, or a member of staff about an order of the person."""

    person: str
    staff: str | None
    channel: str
    kind: str


@dataclass(frozen=True, slots=True)
class Heard:
    """Something a person sent. `k`: the person's k-th message (None: not one of those)."""

    seq: int
    at: datetime
    k: int | None
    event: Event


def arrive(
    connection: sqlite3.Connection, sealer: Sealer, event: Event, channel: str, at: datetime
) -> Arrived | None:
    """Keep the event as waiting; None where its id was seen on this channel before."""
    cursor = connection.execute(
        "INSERT INTO inbox (channel, event, person, staff, kind, received_at, state, raw_sealed)"
        " VALUES (?, ?, ?, ?, ?, ?, 'waiting', ?) ON CONFLICT (channel, event) DO NOTHING",
        [
            channel, event.id, event.person, event.by if isinstance(event, Desk) else None,
            event.kind, stamp(at), sealer.seal(event.model_dump_json(), RAW),
        ],
    )  # fmt: skip
    if cursor.rowcount == 0:
        return None
    assert cursor.lastrowid is not None
    return Arrived(seq=cursor.lastrowid, channel=channel, event=event)


def finish(connection: sqlite3.Connection, seq: int, k: int | None) -> None:
    """The event has had its effect; it was the person's `k`-th message."""
    connection.execute("UPDATE inbox SET state = 'done', k = ? WHERE seq = ?", [k, seq])


def newest_of(connection: sqlite3.Connection, person: str) -> int | None:
    """The row of what came last in this person's conversation; None where nothing ever did."""
    row = connection.execute(
        "SELECT max(seq) AS seq FROM inbox WHERE person = ?", [person]
    ).fetchone()
    return None if row["seq"] is None else int(row["seq"])


def count_try(connection: sqlite3.Connection, seq: int, error: str) -> int:
    """The turn raised `error`; how often it did so by now."""
    row = connection.execute(
        "UPDATE inbox SET tries = tries + 1, error = ? WHERE seq = ? RETURNING tries",
        [error, seq],
    ).fetchone()
    return int(row["tries"])


def bury(connection: sqlite3.Connection, seq: int) -> None:
    """The event will have no effect, and nothing tries it again."""
    connection.execute("UPDATE inbox SET state = 'dead' WHERE seq = ?", [seq])


def waiting(connection: sqlite3.Connection) -> list[int]:
    """The rows of the events that have had no effect yet, oldest first."""
    rows = connection.execute("SELECT seq FROM inbox WHERE state = 'waiting' ORDER BY seq")
    return [row["seq"] for row in rows]


def arrived(connection: sqlite3.Connection, sealer: Sealer, seq: int) -> Arrived:
    """The event of that row; raises `SealError` or `ValueError` where it cannot be read."""
    row = connection.execute(
        "SELECT channel, raw_sealed FROM inbox WHERE seq = ?", [seq]
    ).fetchone()
    event = event_from_json(sealer.open(row["raw_sealed"], RAW))
    return Arrived(seq=seq, channel=row["channel"], event=event)


def sender_of(connection: sqlite3.Connection, seq: int) -> Sender:
    """Who sent the event of that row, without opening it."""
    row = connection.execute(
        "SELECT person, staff, channel, kind FROM inbox WHERE seq = ?", [seq]
    ).fetchone()
    return Sender(row["person"], row["staff"], row["channel"], row["kind"])


def oldest_waiting(connection: sqlite3.Connection) -> datetime | None:
    """When the oldest event arrived that has had no effect yet."""
    row = connection.execute(
        "SELECT min(received_at) AS oldest FROM inbox WHERE state = 'waiting'"
    ).fetchone()
    return None if row["oldest"] is None else moment(row["oldest"])


def heard_from(connection: sqlite3.Connection, sealer: Sealer, person: str) -> list[Heard]:
    """What the person sent and is still kept, oldest first."""
    rows = connection.execute(
        "SELECT seq, received_at, k, raw_sealed FROM inbox WHERE person = ?"
        " AND kind NOT IN ('due', 'desk') AND raw_sealed IS NOT NULL ORDER BY seq",
        [person],
    )
    return [
        Heard(
            seq=row["seq"],
            at=moment(row["received_at"]),
            k=row["k"],
            event=event_from_json(sealer.open(row["raw_sealed"], RAW)),
        )
        for row in rows
    ]


def k_of_event(connection: sqlite3.Connection, channel: str, event: str) -> int | None:
    """Which message of its person an event was; None for one that is not known or was none."""
    row = connection.execute(
        "SELECT k FROM inbox WHERE channel = ? AND event = ?", [channel, event]
    ).fetchone()
    return None if row is None else row["k"]


def drop_raw(connection: sqlite3.Connection, before: datetime) -> int:
    """Let go of what was said before that moment; how many rows. That it came stays known."""
    return connection.execute(
        "UPDATE inbox SET raw_sealed = NULL"
        " WHERE received_at < ? AND state <> 'waiting' AND raw_sealed IS NOT NULL",
        [stamp(before)],
    ).rowcount
