"""`orders resize`: an order sized with other figures, what changes, and a version of it if wanted.

Versions that were made are never touched: the new figures make a new one.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from bot.commands.trouble import trouble
from bot.figures import workshop_figures
from bot.resizing import Resizing, resizing
from bot.settings import Settings, SettingsError, load_settings
from bot.storage import orders
from bot.storage.database import open_read_only
from bot.storage.errors import InUseError, StorageError
from conversations import reference

__all__ = ["run"]

_DONE, _NO, _UNUSABLE = 0, 1, 2


def run(
    number: str, *, figures: Path | None, yes: bool, as_json: bool, database: Path | None = None
) -> int:
    """Print what changes, and make a new version where that is wanted; the exit code.

    1 where there is no such order, where it has gone too far to be changed, or where another
    process has the database.
    """
    if not reference.is_valid(number):
        return _refuse(_UNUSABLE, "number: the 8 digits of an order, like 482 917 42")
    try:
        settings = load_settings(database=database, figures=figures)
        found = _compared(settings, reference.compact(number))
        if found is None:
            return _refuse(_NO, f"there is no order {reference.format(number)}")
        if as_json:
            return _as_json(settings, found, yes)
        return _as_text(settings, found, yes)
    except InUseError as error:
        return _refuse(_NO, f"{trouble(error)}; stop it first")
    except (SettingsError, StorageError) as error:
        return _refuse(_UNUSABLE, trouble(error))


def _compared(settings: Settings, number: str) -> Resizing | None:
    figures = workshop_figures(settings)
    opened = open_read_only(settings.database, settings.key_file)
    try:
        with opened.reading() as connection:
            order = orders.shown(connection, opened.sealer, number)
    finally:
        opened.close()
    return None if order is None else resizing(order, figures)


def _as_json(settings: Settings, found: Resizing, yes: bool) -> int:
    wanted = yes and not found.changes_nothing
    made = _made(settings, found) if wanted and found.can_be_made else None
    answer = {
        "number": found.number,
        "version": found.version,
        "from": list(found.before),
        "to": found.after,
        "differences": [
            {"item": one.item, "name": one.name, "before": one.before, "after": one.after}
            for one in found.differences
        ],
        "made": made,
    }
    sys.stdout.write(f"{json.dumps(answer, ensure_ascii=False, indent=2)}\n")
    return _NO if wanted and made is None else _DONE


def _as_text(settings: Settings, found: Resizing, yes: bool) -> int:
    number = reference.format(found.number)
    was = ", ".join(found.before)
    sys.stdout.write(f"{number}, version {found.version}: figures {was}, now {found.after}\n")
    if found.changes_nothing:
        sys.stdout.write("It is sized with these figures. Nothing changes.\n")
        return _DONE
    for one in found.differences:
        sys.stdout.write(
            f"  cage {one.item}  {one.name:<32} {_shown(one.before)} -> {_shown(one.after)}\n"
        )
    if not found.differences:
        sys.stdout.write("  no value changes\n")
    if not found.can_be_made:
        sys.stdout.write(f"It is {found.stage}: no new version can be made of it.\n")
        return _NO if yes else _DONE
    if not yes and not _asked(f"Make version {found.version + 1} of it? [y/N] "):
        return _DONE
    version = _made(settings, found)
    sys.stdout.write(f"Version {version} is made; {number} is {found.as_version().stage}.\n")
    return _DONE


def _made(settings: Settings, found: Resizing) -> int:
    from bot.wiring import open_workshop

    made = found.as_version()
    with open_workshop(settings) as workshop:
        workshop.service.make_version(made)
    return made.version


def _asked(question: str) -> bool:
    if not sys.stdin.isatty():
        return False
    sys.stdout.write(question)
    sys.stdout.flush()
    return sys.stdin.readline().strip().casefold() in {"y", "yes"}


def _shown(value: object) -> str:
    if value is None:
        return "-"
    if isinstance(value, tuple):
        return " … ".join("" if part is None else str(part) for part in value) or "none"
    return f"{value:g}" if isinstance(value, float) else str(value)


def _refuse(code: int, line: str) -> int:
    sys.stderr.write(f"cagewright orders resize: {line}\n")
    return code
