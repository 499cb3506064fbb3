"""What staff were told: the newest messages to all, and what one of them was answered."""

from __future__ import annotations

from bot.storage import outbox
from bot.storage.database import Database
from bot.storage.outbox import Letter
from bot.storage.telling import PERSONAL
from conversations.review import Role

__all__ = ["answer_to", "latest"]


def latest(database: Database, most: int = 10, role: Role = Role.DESK) -> list[Letter]:
    """The newest messages to all staff, the newest first, without what is not for that role."""
    with database.reading() as connection:
        row = connection.execute(
            "SELECT seq FROM outbox WHERE to_person = ? ORDER BY seq DESC LIMIT 1 OFFSET ?",
            [outbox.DESK, most],
        ).fetchone()
        after = 0 if row is None else row["seq"]
        letters = outbox.letters_to(connection, database.sealer, outbox.DESK, after)[::-1]
    if role is not Role.BENCH:
        return letters
    return [one for one in letters if one.say.lines[0].key not in PERSONAL]


def answer_to(database: Database, event: str, mailbox: str) -> int | None:
    """The message by which this mailbox was answered to an act of the desk; None where it was not.

    `event`: the id of the act.
    """
    with database.reading() as connection:
        row = connection.execute(
            "SELECT min(outbox.seq) AS seq FROM outbox JOIN inbox ON inbox.seq = outbox.event_seq"
            " WHERE inbox.channel = ? AND inbox.event = ? AND outbox.to_person = ?",
            [outbox.DESK, event, mailbox],
        ).fetchone()
    return None if row["seq"] is None else int(row["seq"])
