"""What who is shown on Telegram, cell by cell, from the table `authorisation.toml`."""

from __future__ import annotations

import itertools
import tomllib
from collections.abc import Coroutine
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from bot.channels.telegram.inbound import Happened
from bot.channels.telegram.staff_chat import Card
from bot.channels.telegram.staff_door import StaffDoor
from bot.storage import people, staff
from bot.wiring import Workshop
from conversations.events import Choose, Text
from conversations.review import Role

FILE = Path(__file__).parents[2] / "authorisation.toml"
TABLE = tomllib.loads(FILE.read_text(encoding="utf-8"))
ANSWERS = ("360", "260", "391", "10 mm", "35", "27", "375", "393", "253", "17 mm", "box", "10")
ACTORS = (*Role, "left", "owner", "stranger")
AT = datetime(2026, 3, 2, tzinfo=UTC)


class Shown:
    """Stands where the courier stands, and keeps what it was to show."""

    def __init__(self) -> None:
        self.cards: list[Card] = []

    async def show(self, _chat: int, _person: str, shown: Card) -> None:
        """Keep it."""
        self.cards.append(shown)


def run(doing: Coroutine[Any, Any, None]) -> None:
    """Do it now."""
    with pytest.raises(StopIteration):
        doing.send(None)


@pytest.fixture
def number(shop: Workshop) -> str:
    """An order of `owner`, and one address for each actor."""
    words = ("hello", "en", "isolate", "I don't know", *ANSWERS, "anna@example.org", "Hand in")
    for k, text in enumerate(words):
        shop.service.receive(Text(id=f"e{k}", person="owner", at=AT, text=text), "telegram")
    with shop.database.transaction() as connection:
        for name in (*Role, "left"):
            role = name if name in frozenset(Role) else "operator"
            staff.invite(connection, shop.database.sealer, name, role, name, AT)
            people.meet(connection, name, "telegram", AT)
            staff.bind(connection, name, name)
        staff.remove(connection, "left", AT)
        return str(connection.execute("SELECT number FROM orders").fetchone()[0])


@pytest.mark.parametrize("what", sorted(TABLE["telegram"]))
@pytest.mark.parametrize("tapped", [False, True])
def test_staff_are_shown_what_the_table_names(
    shop: Workshop, number: str, what: str, tapped: bool
) -> None:
    """Typed or tapped; for everybody else it is a beekeeper's message, and nothing is shown."""
    ids = itertools.count()
    for actor in ACTORS:
        shown = Shown()
        door = StaffDoor(shown, shop.database, shop.clock, run)  # type: ignore[arg-type]
        base = {"id": f"x{next(ids)}", "person": actor, "at": AT}
        if tapped:
            data = f"d1:show:{number}:1" if what == "show" else "d1:queue"
            happened = Happened(1, Choose(choice="gone", **base), data=data)
        else:
            happened = Happened(1, Text(text=number if what == "show" else what, **base))
        event = door.event_of(happened)
        allowed = actor in TABLE["telegram"][what]
        assert (event is None) == allowed, (what, actor)
        assert len(shown.cards) == allowed, (what, actor)
        if allowed:
            html = shown.cards[0].html
            assert (f"{number[:3]}\u00a0{number[3:6]}" in html) == (actor in TABLE["sees"]["sizes"])
            assert ("anna@example.org" in html) == (actor in TABLE["sees"]["contact"])
