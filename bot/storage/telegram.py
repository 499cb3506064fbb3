"""What Telegram needs kept: who is in which chat, pictures it has already, how polling goes."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime

from bot.storage.sealing import Sealer
from bot.storage.times import moment, stamp

__all__ = [
    "Polled", "chat_of", "file_of", "forget_file", "keep_chat", "keep_file", "note_poll", "polled",
]  # fmt: skip

CHAT = "telegram_chats.chat_sealed"


@dataclass(frozen=True, slots=True)
class Polled:
    """When a channel was last asked for news and answered (or, where it never was, first asked),
    and the code of what is in the way, if anything."""

    at: datetime
    trouble: str | None


def keep_chat(connection: sqlite3.Connection, sealer: Sealer, person: str, chat: int) -> None:
    """This person is reached in this chat."""
    connection.execute(
        "INSERT INTO telegram_chats (person, chat_sealed) VALUES (?, ?)"
        " ON CONFLICT (person) DO NOTHING",
        [person, sealer.seal(str(chat), CHAT)],
    )


def chat_of(connection: sqlite3.Connection, sealer: Sealer, person: str) -> int | None:
    """The chat in which the person is reached; None for somebody who never wrote there."""
    row = connection.execute(
        "SELECT chat_sealed FROM telegram_chats WHERE person = ?", [person]
    ).fetchone()
    return None if row is None else int(sealer.open(row["chat_sealed"], CHAT))


def file_of(connection: sqlite3.Connection, picture: str) -> str | None:
    """What the other side calls a picture it has already."""
    row = connection.execute(
        "SELECT file FROM telegram_files WHERE picture = ?", [picture]
    ).fetchone()
    return None if row is None else str(row["file"])


def keep_file(connection: sqlite3.Connection, picture: str, file: str) -> None:
    """The other side has this picture now."""
    connection.execute(
        "INSERT INTO telegram_files (picture, file) VALUES (?, ?)"
        " ON CONFLICT (picture) DO UPDATE SET file = excluded.file",
        [picture, file],
    )


def forget_file(connection: sqlite3.Connection, picture: str) -> None:
    """The other side no longer takes its name for this picture."""
    connection.execute("DELETE FROM telegram_files WHERE picture = ?", [picture])


def note_poll(
    connection: sqlite3.Connection, channel: str, at: datetime, trouble: str | None
) -> None:
    """The channel was asked for news at that moment. Trouble leaves the moment of the last
    answer as it is."""
    connection.execute(
        "INSERT INTO polls (channel, at, trouble) VALUES (?, ?, ?)"
        " ON CONFLICT (channel) DO UPDATE SET"
        " at = iif(excluded.trouble IS NULL, excluded.at, at), trouble = excluded.trouble",
        [channel, stamp(at), trouble],
    )


def polled(connection: sqlite3.Connection, channel: str) -> Polled | None:
    """How asking for news went last; None where it never was asked."""
    row = connection.execute(
        "SELECT at, trouble FROM polls WHERE channel = ?", [channel]
    ).fetchone()
    return None if row is None else Polled(moment(row["at"]), row["trouble"])
