"""What the pages are made from: handed in by whoever starts them, the same for every request."""

from __future__ import annotations

import asyncio
from collections import Counter
from dataclasses import dataclass, field

from starlette.requests import Request

from bot.bell import Bell
from bot.channels.pace import Pace
from bot.outbox import Outbox
from bot.paperwork.papers import Papers
from bot.photos import PhotoShelf
from bot.ports import Clock, Renderer
from bot.presenter import Presenter
from bot.service import Service
from bot.storage.database import Database
from sizing.workshop import Figures, default_figures

__all__ = ["CHANNEL", "Parts", "parts_of"]

CHANNEL = "web"


@dataclass(frozen=True, slots=True)
class Parts:
    """The workshop behind the pages. `stop` is set when the program is to end."""

    database: Database
    service: Service
    outbox: Outbox
    bell: Bell
    presenter: Presenter
    renderer: Renderer
    papers: Papers
    shelf: PhotoShelf
    clock: Clock
    hosts: tuple[str, ...]
    version: str
    stop: asyncio.Event
    pace: Pace = field(default_factory=Pace)
    streams: Counter[str] = field(default_factory=Counter)
    """How many windows of each person are listening."""
    figures: Figures = field(default_factory=default_figures)
    """The figures the workshop works with now."""


def parts_of(request: Request) -> Parts:
    """The parts of the application that answers this request."""
    parts = request.app.state.parts
    assert isinstance(parts, Parts)
    return parts
