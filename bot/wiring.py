"""The one place that knows every concrete part and puts them together."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from functools import partial
from typing import Self

from bot.bell import Bell
from bot.designing import designed
from bot.figures import workshop_figures
from bot.logs import log
from bot.outbox import Outbox
from bot.paperwork.renderer import PaperRenderer
from bot.ports import Chance, Clock
from bot.presenter import Presenter
from bot.service import Service
from bot.settings import Settings
from bot.storage.database import Database, open_database
from bot.world import SystemChance, SystemClock
from conversations.machine import advance
from sizing.workshop import Figures

__all__ = ["Workshop", "open_workshop"]


@dataclass(frozen=True, slots=True)
class Workshop:
    """All parts of a running workshop, open until `close` (or the end of its `with`)."""

    settings: Settings
    clock: Clock
    database: Database
    bell: Bell
    service: Service
    outbox: Outbox
    presenter: Presenter
    renderer: PaperRenderer
    figures: Figures

    def close(self) -> None:
        """Close the database and give it free for others."""
        self.database.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def open_workshop(
    settings: Settings, *, clock: Clock | None = None, chance: Chance | None = None
) -> Workshop:
    """Open the workshop's database and put the parts together.

    What was kept when the process last ended and had no effect yet is worked off before the
    first new event; `service.resume()` does it at once.
    Raises what `bot.storage.database.open_database` raises, and `SettingsError` for figures of
    the workshop's own that cannot be used.
    """
    figures = workshop_figures(settings)
    database = open_database(settings.database, settings.key_file)
    log().info("database open", sqlite=sqlite3.sqlite_version)
    time = clock or SystemClock()
    bell = Bell()
    service = Service(
        database,
        advance=advance,
        design=partial(designed, figures=figures),
        clock=time,
        chance=chance or SystemChance(),
        figures=figures,
        bell=bell,
    )
    return Workshop(
        settings=settings,
        clock=time,
        database=database,
        bell=bell,
        service=service,
        outbox=Outbox(database, time, bell),
        presenter=Presenter(),
        renderer=PaperRenderer(figures),
        figures=figures,
    )
