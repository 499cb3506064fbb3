"""What is to be sent: `outbox`. One row a message, in the order in which it was said."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from bot.storage.sealing import Sealer
from bot.storage.times import moment, stamp
from conversations.effects import Say, effect_from_json

__all__ = [
    "DESK", "Letter", "all_waiting", "delay", "fail", "fail_all", "first_waiting", "k_of_ref",
    "keep_ref", "letter_of", "letters_to",
    "mark_sent", "oldest_waiting", "put", "try_again",
]  # fmt: skip

BODY = "outbox.body_sealed"
DESK = "desk"
"""The channel, and the mailbox, of all staff."""

COLUMNS = "seq, to_person, channel, k, body_sealed, created_at, state, attempts, event_seq"


@dataclass(frozen=True, slots=True)
class Letter:
    """A message in the outbox.

    `to`: a person, `desk`, or `desk:NAME`. `k`: the k-th message that person received (None for
    the desk). `attempts`: how often it went out without an answer. `event`: the inbox row whose
    turn said it.
    """

    seq: int
    to: str
    channel: str
    k: int | None
    say: Say
    at: datetime
    sent: bool
    attempts: int
    event: int


def put(
    connection: sqlite3.Connection,
    sealer: Sealer,
    say: Say,
    *,
    to: str,
    channel: str,
    k: int | None,
    at: datetime,
    event: int,
) -> None:
    """Have the message sent."""
    connection.execute(
        "INSERT INTO outbox (to_person, channel, kind, k, body_sealed, created_at, state,"
        " event_seq) VALUES (?, ?, ?, ?, ?, ?, 'waiting', ?)",
        [
            to, channel, "refusal" if say.refused else "message", k,
            sealer.seal(say.model_dump_json(), BODY), stamp(at), event,
        ],
    )  # fmt: skip


def _letter(sealer: Sealer, row: sqlite3.Row) -> Letter:
    say = effect_from_json(sealer.open(row["body_sealed"], BODY))
    assert isinstance(say, Say)
    return Letter(
        seq=row["seq"],
        to=row["to_person"],
        channel=row["channel"],
        k=row["k"],
        say=say,
        at=moment(row["created_at"]),
        sent=row["state"] == "sent",
        attempts=row["attempts"],
        event=row["event_seq"],
    )


def first_waiting(
    connection: sqlite3.Connection,
    sealer: Sealer,
    limit: int,
    *,
    channel: str | None,
    now: datetime | None,
) -> list[Letter]:
    """The oldest unsent message of each mailbox, oldest first.

    A mailbox whose oldest message has to wait until after `now` is left out whole.
    """
    rows = connection.execute(
        f"SELECT {COLUMNS} FROM outbox WHERE seq IN ("  # noqa: S608 - a constant of this module
        " SELECT min(seq) FROM outbox WHERE state = 'waiting' GROUP BY to_person)"
        " AND (:channel IS NULL OR channel = :channel)"
        " AND (:now IS NULL OR not_before IS NULL OR not_before <= :now)"
        " ORDER BY seq LIMIT :limit",
        {"channel": channel, "now": None if now is None else stamp(now), "limit": limit},
    )
    return [_letter(sealer, row) for row in rows.fetchall()]


def all_waiting(connection: sqlite3.Connection, sealer: Sealer, limit: int) -> list[Letter]:
    """Unsent messages to whomever, in the order in which they were said."""
    rows = connection.execute(
        f"SELECT {COLUMNS} FROM outbox WHERE state = 'waiting'"  # noqa: S608 - as above
        " ORDER BY seq LIMIT ?",
        [limit],
    )
    return [_letter(sealer, row) for row in rows.fetchall()]


def letters_to(connection: sqlite3.Connection, sealer: Sealer, to: str, after: int) -> list[Letter]:
    """All messages to this mailbox after the row `after`, sent or not, oldest first."""
    rows = connection.execute(
        f"SELECT {COLUMNS} FROM outbox WHERE to_person = ? AND seq > ?"  # noqa: S608 - as above
        " AND body_sealed IS NOT NULL ORDER BY seq",
        [to, after],
    )
    return [_letter(sealer, row) for row in rows.fetchall()]


def letter_of(connection: sqlite3.Connection, sealer: Sealer, to: str, k: int) -> Letter | None:
    """The `k`-th message this person received, while its words are kept."""
    row = connection.execute(
        f"SELECT {COLUMNS} FROM outbox WHERE to_person = ? AND k = ?"  # noqa: S608 - as above
        " AND body_sealed IS NOT NULL",
        [to, k],
    ).fetchone()
    return None if row is None else _letter(sealer, row)


def k_of_ref(connection: sqlite3.Connection, to: str, ref: str) -> int | None:
    """Which message of this person the channel knows by `ref`."""
    row = connection.execute(
        "SELECT k FROM outbox WHERE to_person = ? AND ref = ?", [to, ref]
    ).fetchone()
    return None if row is None else row["k"]


def keep_ref(connection: sqlite3.Connection, seq: int, ref: str) -> None:
    """The channel knows this message by `ref` from now on."""
    connection.execute("UPDATE outbox SET ref = ? WHERE seq = ?", [ref, seq])


def mark_sent(connection: sqlite3.Connection, seqs: Iterable[int], at: datetime) -> None:
    """These messages are out."""
    connection.executemany(
        "UPDATE outbox SET state = 'sent', sent_at = ? WHERE seq = ? AND state = 'waiting'",
        [(stamp(at), seq) for seq in seqs],
    )


def try_again(connection: sqlite3.Connection, seq: int) -> None:
    """The message went out, but no answer came: it may have arrived."""
    connection.execute("UPDATE outbox SET attempts = attempts + 1 WHERE seq = ?", [seq])


def delay(connection: sqlite3.Connection, seq: int, until: datetime) -> None:
    """Nothing goes to this message's mailbox before that moment."""
    connection.execute("UPDATE outbox SET not_before = ? WHERE seq = ?", [stamp(until), seq])


def fail(connection: sqlite3.Connection, seq: int, error: str) -> None:
    """The message will never be sent; the next one of the mailbox takes its turn."""
    connection.execute(
        "UPDATE outbox SET state = 'failed', error = ? WHERE seq = ? AND state = 'waiting'",
        [error, seq],
    )


def fail_all(connection: sqlite3.Connection, to: str, error: str) -> None:
    """Nothing that waits for this mailbox will be sent."""
    connection.execute(
        "UPDATE outbox SET state = 'failed', error = ? WHERE to_person = ? AND state = 'waiting'",
        [error, to],
    )


def oldest_waiting(connection: sqlite3.Connection) -> datetime | None:
    """When the oldest unsent message was said."""
    row = connection.execute(
        "SELECT min(created_at) AS oldest FROM outbox WHERE state = 'waiting'"
    ).fetchone()
    return None if row["oldest"] is None else moment(row["oldest"])
