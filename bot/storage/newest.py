"""The newest things in the database: where a script goes on."""

from __future__ import annotations

from datetime import datetime
from sqlite3 import Connection

from bot.storage.times import moment

__all__ = ["event", "newest_moment"]


def event(connection: Connection) -> int:
    """The row of the event that arrived last; 0 where none ever did."""
    return int(connection.execute("SELECT coalesce(max(seq), 0) FROM inbox").fetchone()[0])


def newest_moment(connection: Connection) -> datetime | None:
    """The latest moment at which anything happened; None where nothing did."""
    found = connection.execute(
        "SELECT max(at) FROM (SELECT max(received_at) AS at FROM inbox"
        " UNION ALL SELECT max(created_at) FROM outbox UNION ALL SELECT max(at) FROM audit)"
    ).fetchone()[0]
    return None if found is None else moment(found)
