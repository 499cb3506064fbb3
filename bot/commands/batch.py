"""`cagewright batch`: several cleared orders cut from stock together, into a folder."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path
from time import monotonic

from rich.console import Console

from bot.commands.trouble import trouble
from bot.figures import workshop_figures
from bot.paperwork.batch import Batch, Tell, plan_batch
from bot.paperwork.batch_papers import pick_list_csv, plan_data, sheets_dxf, use_of_material
from bot.paperwork.order import PaperOrder, read
from bot.paperwork.setting import Setter
from bot.paperwork.speech import Speech
from bot.settings import Settings, SettingsError, load_settings
from bot.storage import orders as stored
from bot.storage.database import open_read_only
from bot.storage.errors import StorageError
from conversations import reference
from conversations.locale import languages
from conversations.review import Stage
from sizing.workshop import Figures

__all__ = ["run"]

DONE, NO, UNUSABLE = 0, 1, 2
SOON = 1.0
"""Whoever waits longer than this [s] sees how far it is."""


def run(
    numbers: Sequence[str],
    *,
    out: Path,
    language: str = "en",
    seconds: float = 20.0,
    database: Path | None = None,
) -> int:
    """Plan these orders, or all that are cleared, write the plan, and print the use; exit code."""
    for number in numbers:
        if not reference.is_valid(number):
            return _unusable("number", f"the 8 digits of an order, like 482 917 42; not {number}")
    if language not in languages():
        return _unusable("language", f"one of {', '.join(languages())}")
    try:
        settings = load_settings(database=database)
        figures = workshop_figures(settings)
        found, problem = _orders(
            [reference.compact(number) for number in numbers], settings, figures
        )
    except (SettingsError, StorageError) as error:
        print(trouble(error), file=sys.stderr)
        return UNUSABLE
    if problem:
        print(problem)
        return NO
    with _progress() as tell:
        batch = plan_batch(found, figures, seconds=seconds, tell=tell)
    try:
        _write(batch, out, Speech(language))
    except OSError as error:
        return _unusable("out", f"a folder that can be written; {error.filename}")
    for kind, taken, use in use_of_material(batch, Speech(language)):
        print(f"{kind}: {taken}, {use}")
    return DONE


def _orders(
    numbers: Sequence[str], settings: Settings, figures: Figures
) -> tuple[list[PaperOrder], str]:
    """The orders, or why there is nothing to plan."""
    opened = open_read_only(settings.database, settings.key_file)
    try:
        chosen = list(dict.fromkeys(numbers))
        if not chosen:
            with opened.reading() as connection:
                rows = stored.listed(connection, Stage.CLEARED.value)
            chosen = sorted(row["number"] for row in rows)
        found = []
        for number in chosen:
            order = read(opened, number, figures)
            if order is None:
                return [], f"There is no order {reference.format(number)}."
            if order.stage != Stage.CLEARED:
                return [], f"Order {reference.format(number)} is not cleared: {order.stage}."
            found.append(order)
    finally:
        opened.close()
    return found, "" if found else "No order is cleared."


@contextmanager
def _progress() -> Iterator[Tell]:
    """Says on standard error how far planning is, where it takes longer than a moment."""
    console, begun = Console(stderr=True), monotonic()
    with console.status("") as status:
        status.stop()

        def tell(lot: int, of: int, best: Fraction, bound: Fraction) -> None:
            if monotonic() - begun > SOON:
                status.start()
                status.update(f"{lot}/{of}: {float(best):.2f}, at least {float(bound):.2f}")

        yield tell


def _write(batch: Batch, out: Path, speech: Speech) -> None:
    out.mkdir(parents=True, exist_ok=True)
    made = {
        "plan.pdf": Setter().pdf("batch", plan_data(batch, speech)),
        "plan.dxf": sheets_dxf(batch, speech),
        "pick-list.csv": pick_list_csv(batch, speech),
    }
    for name, content in made.items():
        (out / name).write_bytes(content)
        print(out / name)


def _unusable(field: str, would_do: str) -> int:
    print(f"{field}: {would_do}", file=sys.stderr)
    return UNUSABLE
