"""`doctor`: each thing the program needs, looked at in turn: ok, or what to do."""

from __future__ import annotations

import asyncio
import socket
import sqlite3
import sys
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.commands.trouble import trouble
from bot.figures import workshop_figures
from bot.settings import Settings, SettingsError, load_settings
from bot.storage import telegram as kept
from bot.storage.database import in_use, open_read_only
from bot.storage.errors import NoDatabaseError, StorageError
from bot.storage.newest import newest_moment
from conversations.effects import Picture

__all__ = ["run"]

STALE = timedelta(minutes=5)
"""Polling that was not noted for so long has stopped."""
_OK, _DO = "ok", "to do"


def run(*, database: Path | None) -> int:
    """Print a line for each thing; 0 where all are ok, 1 where something is to be done."""
    try:
        settings = load_settings(database=database)
    except SettingsError as error:
        _line(_DO, "settings", trouble(error))
        return 1
    _line(_OK, "settings", f"database {settings.database}")
    try:
        figures = workshop_figures(settings)
    except SettingsError as error:
        _line(_DO, "figures", trouble(error))
        return 1
    _line(_OK, "figures", f"version {figures.version}")
    checks: tuple[tuple[str, Callable[[Settings], tuple[bool, str]]], ...] = (
        ("database and key", _database),
        ("clock", _clock),
        ("pictures", _pictures),
        ("pages", _pages),
        ("telegram", _telegram),
    )
    well = True
    for name, check in checks:
        fine, words = check(settings)
        _line(_OK if fine else _DO, name, words)
        well = well and fine
    return 0 if well else 1


def _line(state: str, name: str, words: str) -> None:
    sys.stdout.write(f"{state:<6} {name}: {words}\n")


def _database(settings: Settings) -> tuple[bool, str]:
    try:
        opened = open_read_only(settings.database, settings.key_file)
    except NoDatabaseError as error:
        if error.reason == "missing":
            return True, "none yet; `cagewright serve` makes it and its key"
        return False, trouble(error)
    except StorageError as error:
        return False, trouble(error)
    try:
        with opened.reading() as connection:
            found = connection.execute("PRAGMA quick_check").fetchone()[0]
    finally:
        opened.close()
    if found != "ok":
        return False, f"restore the last backup; SQLite says: {found}"
    return True, f"sound, and the key opens it (SQLite {sqlite3.sqlite_version})"


def _clock(settings: Settings) -> tuple[bool, str]:
    now = datetime.now(UTC)
    newest = None
    if settings.database.is_file():
        try:
            opened = open_read_only(settings.database, settings.key_file)
            with opened.reading() as connection:
                newest = newest_moment(connection)
            opened.close()
        except StorageError:
            newest = None  # said above
    if newest is not None and newest > now + timedelta(minutes=1):
        return False, f"set the clock: it says {now:%Y-%m-%d %H:%M}Z, the newest entry is later"
    return True, f"{now:%Y-%m-%d %H:%M}Z"


def _pictures(_: Settings) -> tuple[bool, str]:
    from bot.pictures import Renderer

    drawn = Renderer().png(Picture(name="side_to_side"), "en")
    fine = drawn.startswith(b"\x89PNG")
    return fine, "drawn" if fine else "install the program anew: nothing can be drawn"


def _pages(settings: Settings) -> tuple[bool, str]:
    place = f"{settings.host}:{settings.port}"
    with socket.socket() as probe:
        probe.settimeout(1)
        taken = probe.connect_ex((settings.host, settings.port)) == 0
    return True, f"{place} {'answers: something serves there' if taken else 'is free'}"


def _telegram(settings: Settings) -> tuple[bool, str]:
    if settings.telegram_token is None:
        return True, "off; set CAGEWRIGHT_TELEGRAM_TOKEN to switch it on"
    name, code = asyncio.run(_who(settings))
    if name is None:
        return False, _TELEGRAM_DO.get(code, f"look at the network ({code})")
    polled = _polled(settings)
    if polled is None:
        return True, f"@{name}, not polled yet"
    if polled.trouble == "another-poller":
        return False, f"@{name}: stop the other program that polls with this token"
    if polled.trouble is not None:
        return False, f"@{name}: look at the log of `serve` ({polled.trouble})"
    ago = datetime.now(UTC) - polled.at
    if ago > STALE:
        since = f"@{name}, last polled {ago.total_seconds() // 60:.0f} minutes ago"
        if in_use(settings.database):
            return False, f"{since} although it runs: look at its log, start it again"
        return True, since
    return True, f"@{name}, polled just now"


_TELEGRAM_DO = {
    "InvalidToken": "put the token of a bot that exists into CAGEWRIGHT_TELEGRAM_TOKEN",
}


async def _who(settings: Settings) -> tuple[str | None, str]:
    """The bot's name, or None and the code of what was in the way."""
    import logging

    from telegram import Bot
    from telegram.error import TelegramError

    for noisy in ("httpx", "httpcore", "telegram"):
        logging.getLogger(noisy).setLevel(logging.CRITICAL)
    assert settings.telegram_token is not None
    base = settings.telegram_api.rstrip("/")
    bot = Bot(settings.telegram_token.get_secret_value(), base_url=f"{base}/bot")
    try:
        async with bot:
            return bot.username, ""
    except TelegramError as error:
        return None, type(error).__name__


def _polled(settings: Settings) -> kept.Polled | None:
    try:
        opened = open_read_only(settings.database, settings.key_file)
    except StorageError:
        return None
    try:
        with opened.reading() as connection:
            return kept.polled(connection, "telegram")
    finally:
        opened.close()
