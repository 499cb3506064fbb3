"""The journal: `audit`. It only ever grows, and holds ids, codes and millimetres."""

from __future__ import annotations

import sqlite3
from datetime import datetime
from typing import Any

from bot.storage.times import stamp
from conversations.effects import Journal

__all__ = ["STAGE", "journal", "stages_of"]

STAGE = "stage"
"""What the journal calls an order's coming to a stage."""


def journal(connection: sqlite3.Connection, person: str, entry: Journal, at: datetime) -> None:
    """Write a line about this person's conversation or order."""
    connection.execute(
        "INSERT INTO audit (at, what, by, person, number, version, question, before, after)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [
            stamp(at), entry.what, entry.by, person, entry.number, entry.version,
            entry.question, entry.before, entry.after,
        ],
    )  # fmt: skip


def stages_of(connection: sqlite3.Connection, number: str) -> list[dict[str, Any]]:
    """The stages the order came to, oldest first, as in the contract."""
    rows = connection.execute(
        "SELECT after AS stage, at, by, version FROM audit"
        " WHERE number = ? AND what = ? ORDER BY seq",
        [number, STAGE],
    )
    return [dict(row) for row in rows]
