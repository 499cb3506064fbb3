"""`cagewright papers`: everything of one order that is printed, into a folder."""

from __future__ import annotations

import sys
from pathlib import Path

from bot.commands.trouble import trouble
from bot.figures import workshop_figures
from bot.paperwork.order import PaperOrder, read
from bot.paperwork.papers import Papers
from bot.settings import Settings, SettingsError, load_settings
from bot.storage.database import open_read_only
from bot.storage.errors import StorageError
from conversations import reference
from conversations.locale import languages
from sizing.workshop import Figures

__all__ = ["run"]

DONE, NO, UNUSABLE = 0, 1, 2


def run(number: str, *, out: Path, language: str | None, database: Path | None = None) -> int:
    """Write the papers of an order and print the files' names; the exit code.

    Without a language the bench's papers are in English, the customer's in the customer's own.
    """
    if not reference.is_valid(number):
        return _unusable("number", "the 8 digits of an order, like 482 917 42")
    if language is not None and language not in languages():
        return _unusable("language", f"one of {', '.join(languages())}")
    try:
        settings = load_settings(database=database)
        figures = workshop_figures(settings)
        order = _order(reference.compact(number), settings, figures)
    except (SettingsError, StorageError) as error:
        print(trouble(error), file=sys.stderr)
        return UNUSABLE
    if order is None:
        print(f"There is no order {reference.format(number)}.")
        return NO
    try:
        _write(order, Papers(figures), out, language)
    except OSError as error:
        return _unusable("out", f"a folder that can be written; {error.filename}")
    return DONE


def _order(number: str, settings: Settings, figures: Figures) -> PaperOrder | None:
    opened = open_read_only(settings.database, settings.key_file)
    try:
        return read(opened, number, figures)
    finally:
        opened.close()


def _write(order: PaperOrder, papers: Papers, out: Path, language: str | None) -> None:
    out.mkdir(parents=True, exist_ok=True)
    for name, made in papers.files(order, language or "en", language or order.language):
        file = out / name
        file.write_bytes(made)
        print(file)


def _unusable(field: str, would_do: str) -> int:
    print(f"{field}: {would_do}", file=sys.stderr)
    return UNUSABLE
