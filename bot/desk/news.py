"""What the workshop was told lately: the newest messages to all staff."""

from __future__ import annotations

from bot.storage import outbox
from bot.storage.database import Database
from bot.storage.outbox import Letter

__all__ = ["latest"]


def latest(database: Database, most: int = 10) -> list[Letter]:
    """The newest messages to all staff, the newest first."""
    with database.reading() as connection:
        row = connection.execute(
            "SELECT seq FROM outbox WHERE to_person = ? ORDER BY seq DESC LIMIT 1 OFFSET ?",
            [outbox.DESK, most],
        ).fetchone()
        after = 0 if row is None else row["seq"]
        return outbox.letters_to(connection, database.sealer, outbox.DESK, after)[::-1]
