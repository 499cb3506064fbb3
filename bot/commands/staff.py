"""`staff`: who works at the workshop. While `serve` runs, the desk page does the same."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

from bot.commands.address import address
from bot.commands.trouble import trouble
from bot.desk import staff as door
from bot.settings import Settings, SettingsError, load_settings
from bot.storage import staff
from bot.storage.database import Database, open_database
from bot.storage.errors import InUseError, StorageError
from bot.world import SystemClock
from conversations.review import Role

__all__ = ["add", "listed", "remove"]


def add(name: str, *, role: str, database: Path | None) -> int:
    """Print a code with which `name` signs in once; the exit code."""
    if role not in frozenset(Role):
        return _refuse(2, f"role: one of {', '.join(Role)}")
    if not door.fits(name.strip()):
        return _refuse(2, "name: a short name without dots and colons")

    def do(opened: Database, settings: Settings) -> int:
        here = door.active(opened, name.strip())
        if here is not None and here != role:
            return _refuse(2, f"role: {here}, which {name.strip()} has; or remove them first")
        code = door.invite(opened, SystemClock().now(), name.strip(), Role(role))
        sys.stdout.write(
            f"{name.strip()} ({role}), good once and for three days:\n"
            f"  the desk page   {address(settings, settings.port)}/desk/in/{code}\n"
            f"  Telegram        /start {code}\n"
        )
        return 0

    return _opened(database, do)


def listed(*, database: Path | None) -> int:
    """Print who works here; the exit code."""

    def do(opened: Database, _settings: Settings) -> int:
        with opened.reading() as connection:
            rows = staff.members(connection)
        for one in rows:
            where = ", on Telegram" if one.address else ""
            sys.stdout.write(f"{one.name}: {one.role}, {one.state}{where}\n")
        return 0

    return _opened(database, do)


def remove(name: str, *, database: Path | None) -> int:
    """From now on `name` does nothing here any more; the exit code."""

    def do(opened: Database, _settings: Settings) -> int:
        if not door.remove(opened, SystemClock().now(), name):
            sys.stdout.write(f"Nobody here is called {name}.\n")
            return 1
        sys.stdout.write(f"{name} is out.\n")
        return 0

    return _opened(database, do)


def _opened(path: Path | None, do: Callable[[Database, Settings], int]) -> int:
    try:
        settings = load_settings(database=path)
        opened = open_database(settings.database, settings.key_file)
    except InUseError as error:
        return _refuse(1, f"{trouble(error)}; use the desk page meanwhile")
    except (SettingsError, StorageError) as error:
        return _refuse(2, trouble(error))
    try:
        return do(opened, settings)
    finally:
        opened.close()


def _refuse(code: int, line: str) -> int:
    sys.stderr.write(f"cagewright staff: {line}\n")
    return code
