"""Who may do what, cell by cell, from a table: `authorisation.toml`."""

from __future__ import annotations

import itertools
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from bot.channels.web import chat, desk, staff_page
from bot.settings import load_settings
from bot.storage import staff
from bot.wiring import Workshop, open_workshop
from conversations.events import Choose, Desk, DeskVerb, Text
from conversations.review import Role

TABLE = tomllib.loads(Path(__file__).with_name("authorisation.toml").read_text(encoding="utf-8"))
STAGES = tuple(TABLE["beekeeper"]["status"]["stages"])
NOBODY = ("left", "stranger")
ANSWERS = ("360", "260", "391", "10 mm", "35", "27", "375", "393", "253", "17 mm", "box", "10")


class House:
    """A workshop with one order, moved to whatever stage a cell needs."""

    def __init__(self, shop: Workshop) -> None:
        self.shop = shop
        self.count = itertools.count(1)
        with shop.database.transaction() as connection:
            for role in Role:
                staff.invite(connection, shop.database.sealer, role, role, role, shop.clock.now())
            staff.invite(
                connection, shop.database.sealer, "left", Role.DESK, "left", shop.clock.now()
            )
            staff.remove(connection, "left", shop.clock.now())
        self.says("hello", "en", "isolate", "I don't know", *ANSWERS, "anna@example.org", "Hand in")
        self.number = str(self.row()["number"])

    def base(self, person: str) -> dict[str, Any]:
        """What every event has."""
        return {"id": f"e{next(self.count)}", "person": person, "at": self.shop.clock.now()}

    def says(self, *texts: str, person: str = "anna") -> None:
        """Somebody types these."""
        for text in texts:
            self.shop.service.receive(Text(text=text, **self.base(person)), "web")

    def taps(self, choice: str, person: str = "anna") -> None:
        """Somebody taps this."""
        self.shop.service.receive(Choose(choice=choice, **self.base(person)), "web")

    def row(self) -> Any:
        """The order as it stands."""
        with self.shop.database.reading() as connection:
            return connection.execute("SELECT * FROM orders").fetchone()

    def move(self, stage: str) -> None:
        """Put the order at this stage."""
        with self.shop.database.transaction() as connection:
            connection.execute("UPDATE orders SET stage = ?", [stage])

    def act(self, verb: DeskVerb, by: str) -> str | None:
        """Staff act on the order; the code of the refusal, or None."""
        before = [letter.seq for letter in self.shop.outbox.since(f"desk:{by}")]
        event = Desk(
            verb=verb, by=by, number=self.number, note="because", measure="side_to_side",
            **self.base("?"),
        )  # fmt: skip
        self.shop.service.receive(event, "desk")
        answers = self.shop.outbox.since(f"desk:{by}", before[-1] if before else 0)
        assert len(answers) == 1
        return answers[0].say.refused


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> Iterator[House]:
    """One house for all cells."""
    folder = tmp_path_factory.mktemp("house")
    settings = load_settings(database=folder / "data" / "w.db", key_file=folder / "key")
    with open_workshop(settings) as shop:
        yield House(shop)


def test_every_action_has_a_row() -> None:
    """A verb, or a page that takes a form, without a row would be nobody's decision."""
    assert set(TABLE["desk"]) == set(DeskVerb)
    routes = [*chat.routes(), *desk.routes(), *staff_page.routes()]
    posted = {route.path for route in routes if "POST" in (route.methods or ())}
    assert posted == set(TABLE["pages"])


@pytest.mark.parametrize("verb", list(DeskVerb))
def test_each_verb_is_done_by_its_roles_at_its_stages(house: House, verb: DeskVerb) -> None:
    """All others are refused with the reason, and nothing changes."""
    row = TABLE["desk"][verb]
    for by, stage in itertools.product((*Role, *NOBODY), STAGES):
        house.move(stage)
        expected = None
        if by not in row["roles"]:
            expected = "not-allowed"
        elif stage not in row["stages"]:
            expected = "not-from-this-stage"
        assert house.act(verb, by) == expected, (verb, by, stage)
        if expected is not None:
            assert house.row()["stage"] == stage


@pytest.mark.parametrize("stage", STAGES)
def test_only_the_owner_changes_an_order_and_only_while_it_may_be(house: House, stage: str) -> None:
    """A new version, or none."""
    house.move(stage)
    before = house.row()["version"]
    house.taps("change")
    house.taps("side_to_side")
    house.says("361" if before % 2 else "360")
    allowed = stage in TABLE["beekeeper"]["change"]["stages"]
    assert house.row()["version"] == before + allowed


@pytest.mark.parametrize("stage", STAGES)
def test_a_stranger_learns_nothing_from_a_number(house: House, stage: str) -> None:
    """The owner hears where the order stands; somebody else hears nothing of it."""
    house.move(stage)
    house.says(house.number)
    mine = house.shop.outbox.since("anna")[-1].say
    assert mine.lines[0].key == f"status.{stage}"
    house.says("hello", "en", house.number, person="basia")
    keys = {line.key for one in house.shop.outbox.since("basia") for line in one.say.lines}
    assert not any(key.startswith("status.") for key in keys)
