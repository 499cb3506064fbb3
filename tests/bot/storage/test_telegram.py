"""What is kept for Telegram."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.storage import telegram
from bot.storage.database import open_database

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def test_trouble_leaves_the_moment_of_the_last_answer(tmp_path: Path) -> None:
    """Who watches sees since when nothing came; after the next answer there is no trouble."""
    database = open_database(tmp_path / "data" / "w.db", tmp_path / "key")
    later = NOW + timedelta(minutes=9)
    with database.transaction() as connection:
        telegram.note_poll(connection, "telegram", NOW, None)
        telegram.note_poll(connection, "telegram", later, "another-poller")
        assert telegram.polled(connection, "telegram") == telegram.Polled(NOW, "another-poller")
        telegram.note_poll(connection, "telegram", later, None)
        assert telegram.polled(connection, "telegram") == telegram.Polled(later, None)
    database.close()


def test_chats_files_and_polls_are_kept(tmp_path: Path) -> None:
    """Each is found again as it was put away; the chat is sealed."""
    database = open_database(tmp_path / "data" / "w.db", tmp_path / "key")
    sealer = database.sealer
    with database.transaction() as connection:
        telegram.keep_chat(connection, sealer, "tg-a", 1234567890)
        telegram.keep_file(connection, "lid x", "file-1")
        telegram.keep_file(connection, "lid x", "file-2")
        telegram.note_poll(connection, "telegram", NOW, "another-poller")
    with database.reading() as connection:
        assert telegram.chat_of(connection, sealer, "tg-a") == 1234567890
        assert telegram.chat_of(connection, sealer, "tg-b") is None
        assert telegram.file_of(connection, "lid x") == "file-2"
        assert telegram.polled(connection, "telegram") == telegram.Polled(NOW, "another-poller")
        assert telegram.polled(connection, "other") is None
        sealed = connection.execute("SELECT chat_sealed FROM telegram_chats").fetchone()[0]
    assert b"1234567890" not in sealed
    with database.transaction() as connection:
        telegram.forget_file(connection, "lid x")
        assert telegram.file_of(connection, "lid x") is None
    database.close()
