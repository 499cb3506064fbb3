"""`talk`: chat in the terminal, or play a script of JSON lines."""

from __future__ import annotations

import json
import sys
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any, TextIO

from bot.channels.terminal.chat import Chat
from bot.channels.terminal.parts import Gallery, Parts
from bot.channels.terminal.script import SCRIPT_START, Script
from bot.commands.trouble import trouble
from bot.photos import PhotoShelf
from bot.settings import Settings, SettingsError, load_settings
from bot.storage.errors import InUseError, StorageError
from bot.storage.newest import newest_moment
from bot.wiring import Workshop, open_workshop
from bot.world import SeededChance, SetClock

__all__ = ["run"]


def run(
    *, database: Path | None, name: str, language: str | None, pictures: Path | None, seed: int,
    script: str | None,
) -> int:  # fmt: skip
    """Hold the conversation; 0 when it has ended, 1 where the database is in use, 2 where the
    script, a setting or a file can't be used."""
    try:
        if pictures is not None:
            pictures.mkdir(parents=True, exist_ok=True)
        if script is None:
            return _chat(database, name, language, pictures)
        with ExitStack() as stack:
            lines = _opened(stack, script)
            if lines is None:
                return _refuse(2, f"SCRIPT: no file {script}; name a file, or - for input")
            return _script(stack, lines, database, pictures, seed)
    except InUseError as error:
        return _refuse(1, trouble(error))
    except (SettingsError, StorageError) as error:
        return _refuse(2, trouble(error))
    except OSError as error:
        return _refuse(2, f"pictures: a folder that can be written; {error.filename}")


def _chat(database: Path | None, name: str, language: str | None, pictures: Path | None) -> int:
    with open_workshop(load_settings(database=database)) as workshop:
        Chat(_parts(workshop), name, language, _gallery(workshop, pictures)).run()
    return 0


def _script(
    stack: ExitStack, lines: TextIO, database: Path | None, pictures: Path | None, seed: int
) -> int:
    settings = stack.enter_context(_script_settings(database))
    clock = SetClock(SCRIPT_START)
    workshop = stack.enter_context(open_workshop(settings, clock=clock, chance=SeededChance(seed)))
    clock.set(_start(workshop))
    Script(_parts(workshop), clock, _write, _gallery(workshop, pictures)).run(lines)
    return 0


def _refuse(code: int, line: str) -> int:
    sys.stderr.write(f"cagewright talk: {line}\n")
    return code


def _opened(stack: ExitStack, script: str) -> TextIO | None:
    if script == "-":
        return sys.stdin
    file = Path(script)
    return stack.enter_context(file.open(encoding="utf-8")) if file.is_file() else None


@contextmanager
def _script_settings(database: Path | None) -> Iterator[Settings]:
    """The settings, with a fresh database that goes away afterwards where none is named."""
    if database is not None:
        yield load_settings(database=database)
        return
    with tempfile.TemporaryDirectory(prefix="cagewright-") as folder:
        home = Path(folder)
        yield load_settings(database=home / "talk" / "workshop.db", key_file=home / "key")


def _parts(workshop: Workshop) -> Parts:
    return Parts(
        database=workshop.database,
        service=workshop.service,
        outbox=workshop.outbox,
        presenter=workshop.presenter,
        renderer=workshop.renderer,
        shelf=PhotoShelf(workshop.settings.photo_folder),
        clock=workshop.clock,
    )


def _gallery(workshop: Workshop, pictures: Path | None) -> Gallery | None:
    return None if pictures is None else Gallery(workshop.renderer, pictures)


def _start(workshop: Workshop) -> datetime:
    """The script's clock never goes back behind what the database has seen."""
    with workshop.database.reading() as connection:
        return max(SCRIPT_START, newest_moment(connection) or SCRIPT_START)


def _write(row: dict[str, Any]) -> None:
    sys.stdout.write(json.dumps(row, ensure_ascii=False) + "\n")
    sys.stdout.flush()
