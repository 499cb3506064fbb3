"""The demo workshop: a few invented people and orders, made by playing their chats.

Nothing is written past the service, so that what the demo shows is what would really be there.
"""

from __future__ import annotations

import contextlib
import tempfile
import tomllib
from collections.abc import Mapping
from datetime import timedelta
from importlib import resources
from pathlib import Path
from typing import Any

from bot.settings import Settings
from bot.storage.effects import TERMINAL
from bot.wiring import Workshop, open_workshop
from bot.world import SetClock, SystemClock
from conversations.events import Choose, Desk, DeskVerb, Text

__all__ = ["make"]

BETWEEN = timedelta(seconds=50)
"""Between two messages of one person."""
STAFF = "workshop"
CHANNEL = "web"


def make(settings: Settings) -> None:
    """Make the database with the demo workshop in it where there is none yet.

    It is made aside and put in place whole, so that a stop half-way leaves nothing behind that
    would be taken for a workshop. Raises what opening a database raises.
    """
    if settings.database.exists():
        return
    folder = settings.database.parent
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="demo-", dir=folder) as aside:
        database = Path(aside) / settings.database.name
        clock = SetClock(SystemClock().now())
        there = settings.model_copy(update={"database": database})
        with open_workshop(there, clock=clock) as workshop:
            for story in _stories():
                _play(workshop, clock, story)
            workshop.outbox.mark_sent(letter.seq for letter in workshop.outbox.backlog())
        # Closed for good, the file is whole without its log; a link never replaces another
        # file, so that of two starts at once one makes the demo and both serve it or refuse.
        with contextlib.suppress(FileExistsError):
            settings.database.hardlink_to(database)


def _stories() -> list[dict[str, Any]]:
    text = resources.files(__package__).joinpath("demo.toml").read_text(encoding="utf-8")
    stories: list[dict[str, Any]] = tomllib.loads(text)["story"]
    return sorted(stories, key=lambda story: story["hours_ago"], reverse=True)


def _play(workshop: Workshop, clock: SetClock, story: Mapping[str, Any]) -> None:
    now = SystemClock().now()
    clock.set(now - timedelta(hours=story["hours_ago"]))
    person = f"{CHANNEL}-demo-{story['person']}"
    for count, step in enumerate(story["steps"]):
        waited = timedelta(hours=step["hours"]) if "hours" in step else BETWEEN
        clock.advance(waited)
        identity = f"{person}:{count}"
        if isinstance(step, str):
            workshop.service.receive(
                Text(id=identity, person=person, at=clock.now(), text=step), CHANNEL
            )
        elif "tap" in step:
            workshop.service.receive(
                Choose(id=identity, person=person, at=clock.now(), choice=step["tap"]), CHANNEL
            )
        else:
            event = _by_desk(workshop, clock, person, identity, step)
            workshop.service.receive(event, TERMINAL)


def _by_desk(
    workshop: Workshop, clock: SetClock, person: str, identity: str, step: Mapping[str, Any]
) -> Desk:
    """What the desk does with the newest order of this person."""
    with workshop.database.reading() as connection:
        row = connection.execute(
            "SELECT number, version FROM orders WHERE person = ? ORDER BY handed_in_at DESC",
            [person],
        ).fetchone()
    return Desk(
        id=identity,
        person=person,
        at=clock.now(),
        by=STAFF,
        verb=DeskVerb(step["do"]),
        number=row["number"],
        version=row["version"],
        measure=step.get("measure"),
        note=step.get("note", ""),
    )
