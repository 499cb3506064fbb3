"""The order number that the next order gets: `numbers`.

It is drawn ahead and kept, so that a turn that is done again after a crash finds the same one.
"""

from __future__ import annotations

import sqlite3

from bot.ports import Chance
from bot.storage.errors import InconsistentError
from conversations.reference import complete

__all__ = ["next_number", "redraw"]

DRAWS = 10_000
"""By then chance is broken: of 900 000 payloads 852 338 give a number."""


def next_number(connection: sqlite3.Connection, chance: Chance) -> str:
    """The number that is kept for the next order."""
    row = connection.execute("SELECT next FROM numbers").fetchone()
    return redraw(connection, chance) if row is None else str(row["next"])


def redraw(connection: sqlite3.Connection, chance: Chance) -> str:
    """Keep another number that no order has."""
    for _ in range(DRAWS):
        number = complete(chance.payload())
        if number is not None and not _taken(connection, number):
            connection.execute(
                "INSERT INTO numbers (only, next) VALUES (1, :number)"
                " ON CONFLICT (only) DO UPDATE SET next = :number",
                {"number": number},
            )
            return number
    raise InconsistentError("no-number-left")


def _taken(connection: sqlite3.Connection, number: str) -> bool:
    row = connection.execute("SELECT 1 FROM orders WHERE number = ?", [number]).fetchone()
    return row is not None
