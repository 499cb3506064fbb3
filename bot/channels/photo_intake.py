"""A photo on its way into a conversation: counted, kept on the shelf, written down."""

from __future__ import annotations

from collections.abc import AsyncIterable
from datetime import datetime

from bot.photos import PhotoError, PhotoShelf
from bot.storage import answers, people
from bot.storage.database import Database

__all__ = ["BYTES_PER_ORDER", "PHOTOS_PER_ORDER", "take_photo"]

PHOTOS_PER_ORDER = 12
BYTES_PER_ORDER = 60 * 1024 * 1024


async def take_photo(
    database: Database,
    shelf: PhotoShelf,
    person: str,
    chunks: AsyncIterable[bytes],
    at: datetime,
) -> str:
    """Keep a photo of this person; its name for the event that follows.

    Raises `PhotoError`, with the code `enough` where the notebook holds all it may.
    """
    if _full(database, person):
        raise PhotoError("enough")
    kept = await shelf.keep_from(chunks)
    with database.transaction() as connection:
        # Somebody who was never greeted has no row yet; the event itself will make one.
        if people.channel_of(connection, person) is not None:
            answers.add_photo(
                connection, person, kept.sha,
                at=at, width=kept.width, height=kept.height, size=kept.size,
            )  # fmt: skip
    return kept.sha


def _full(database: Database, person: str) -> bool:
    with database.reading() as connection:
        row = connection.execute(
            "SELECT count(DISTINCT sha) AS photos, coalesce(sum(bytes), 0) AS bytes FROM photos"
            " WHERE person = ? AND number IS NULL",
            [person],
        ).fetchone()
    return bool(row["photos"] >= PHOTOS_PER_ORDER or row["bytes"] >= BYTES_PER_ORDER)
