"""Who may do what, cell by cell, from a table: `authorisation.toml`."""

from __future__ import annotations

import itertools
import tomllib
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any, get_args

import pytest
from starlette.routing import Route

from bot.channels.web.app import build
from bot.settings import load_settings
from bot.storage import staff
from bot.wiring import Workshop, open_workshop
from conversations.events import (
    Choose,
    Desk,
    DeskVerb,
    Due,
    Edit,
    Event,
    Photo,
    Text,
    Unusable,
    Voice,
)
from conversations.review import Role, Stage
from conversations.turns.wishes import WISHES

TABLE = tomllib.loads(Path(__file__).with_name("authorisation.toml").read_text(encoding="utf-8"))
STAGES = tuple(TABLE["stages"])
OWNER, STRANGER = "anna", "basia"
NOBODY = ("left", OWNER, STRANGER)
"""Whatever they call themselves, they have no role."""
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
        self.says("hello", "en", person=STRANGER)
        self.number = str(self.row()["number"])
        self.sessions = self.rows("SELECT person, session_sealed FROM sessions")

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

    def rows(self, question: str) -> list[Any]:
        """What the database answers."""
        with self.shop.database.reading() as connection:
            return connection.execute(question).fetchall()

    def row(self) -> Any:
        """The order as it stands."""
        return self.rows("SELECT number, version, stage FROM orders")[0]

    def move(self, stage: str) -> None:
        """Put the order at this stage, and the conversations where they were after handing in."""
        with self.shop.database.transaction() as connection:
            connection.execute("UPDATE orders SET stage = ?", [stage])
            for person, sealed in self.sessions:
                connection.execute(
                    "UPDATE sessions SET session_sealed = ? WHERE person = ?", [sealed, person]
                )

    def wishes(self, wish: str, person: str) -> tuple[set[str], list[str | None]]:
        """Somebody wishes; the keys of what they hear, and the orders the desk hears of."""
        last = self.rows("SELECT max(seq) FROM outbox")[0][0]
        self.says(f"/{wish}", person=person)
        heard = self.shop.outbox.since(person, last)
        assert heard
        desk = [letter.say.number for letter in self.shop.outbox.since("desk", last)]
        return {line.key for letter in heard for line in letter.say.lines}, desk

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


def test_every_action_has_a_row(house: House) -> None:
    """A verb, a wish, a stage or a page that takes a form without one is nobody's decision."""
    assert set(TABLE["desk"]) == set(DeskVerb)
    assert set(TABLE["wish"]) == set(WISHES)
    assert set(STAGES) == set(Stage) - {Stage.NOTEBOOK, Stage.READ_BACK}
    routes = build(SimpleNamespace(hosts=())).routes  # type: ignore[arg-type]
    posted = {
        route.path for route in routes
        if isinstance(route, Route) and "POST" in (route.methods or ())
    }  # fmt: skip
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


@pytest.mark.parametrize("verb", list(DeskVerb))
def test_whoever_has_no_role_leaves_a_line_in_the_journal(house: House, verb: DeskVerb) -> None:
    """Who tried what, as codes."""
    house.act(verb, STRANGER)
    entry = house.rows("SELECT what, by, number, after FROM audit ORDER BY seq DESC LIMIT 1")[0]
    assert tuple(entry) == ("not-allowed", STRANGER, house.number, verb.value)


@pytest.mark.parametrize("wish", sorted(TABLE["wish"]))
def test_a_wish_does_what_it_may_with_an_own_order(house: House, wish: str) -> None:
    """At each stage: it shows where the order stands, or has the desk look, or neither."""
    kind = TABLE["wish"][wish]["order"]
    for stage in STAGES:
        house.move(stage)
        before = tuple(house.row())
        keys, desk = house.wishes(wish, OWNER)
        assert (f"status.{stage}" in keys) == (kind == "shows"), (wish, stage)
        assert (house.number in desk) == (kind == "desk"), (wish, stage)
        assert tuple(house.row()) == before, (wish, stage)


@pytest.mark.parametrize("stage", STAGES)
def test_an_own_order_is_changed_only_while_it_may_be(house: House, stage: str) -> None:
    """A new version, or none."""
    house.move(stage)
    before = house.row()["version"]
    house.taps("change")
    house.taps("side_to_side")
    house.says("361")
    allowed = stage in TABLE["wish"]["change"]["stages"]
    assert house.row()["version"] == before + allowed


@pytest.mark.parametrize("stage", STAGES)
def test_an_own_order_is_taken_back_only_while_it_may_be(house: House, stage: str) -> None:
    """One tap more takes it back, or moves nothing; nobody else's tap does."""
    house.move(stage)
    house.says("/withdraw", person=STRANGER)
    house.says("withdraw it", person=STRANGER)
    assert house.row()["stage"] == stage
    house.says("/withdraw")
    house.taps("withdraw-it")
    allowed = stage in TABLE["wish"]["withdraw"]["stages"]
    assert house.row()["stage"] == ("withdrawn" if allowed else stage)


@pytest.mark.parametrize("wish", sorted(TABLE["wish"]))
def test_a_wish_of_a_stranger_does_nothing_with_an_order(house: House, wish: str) -> None:
    """At no stage do they hear of it, or the desk because of them."""
    for stage in STAGES:
        house.move(stage)
        before = tuple(house.row())
        keys, desk = house.wishes(wish, STRANGER)
        assert not any(key.startswith(("status.", "changed.")) for key in keys), (wish, stage)
        assert house.number not in desk, (wish, stage)
        assert tuple(house.row()) == before, (wish, stage)


def of_stranger(house: House, kind: str) -> Event:
    """An event of that kind by somebody else, as near to the order as it can come."""
    base = house.base(STRANGER)
    match kind:
        case "text":
            return Text(text=f"cancel {house.number}", **base)
        case "choose":
            return Choose(choice="side_to_side", of=1, **base)
        case "photo":
            return Photo(photo="f" * 64, caption=house.number, **base)
        case "voice":
            return Voice(**base)
        case "unusable":
            return Unusable(**base)
        case "edit":
            return Edit(message=5, text="365", **base)
        case "due":
            return Due(what=f"question {house.number}", **base)
        case _:
            return Desk(verb=DeskVerb.CLEAR, by=STRANGER, number=house.number, **base)


def test_every_kind_of_event_has_its_row() -> None:
    """One without is nobody's decision."""
    kinds = {one.model_fields["kind"].default for one in get_args(get_args(Event)[0])}
    assert kinds == set(TABLE["stranger"]["kinds"])


@pytest.mark.parametrize("kind", TABLE["stranger"]["kinds"])
def test_no_kind_of_event_of_a_stranger_touches_an_order(house: House, kind: str) -> None:
    """At no stage does the order change, gain a photo or an answer, or is its owner told a word."""
    tables = ("answers", "photos", "notes", "versions")
    for stage in STAGES:
        house.move(stage)
        count = [house.rows(f"SELECT count(*) FROM {one} WHERE number IS NOT NULL")[0][0]
                 for one in tables]  # fmt: skip
        before, heard = tuple(house.row()), len(house.shop.outbox.since(OWNER))
        house.shop.service.receive(of_stranger(house, kind), "web")
        assert tuple(house.row()) == before, (kind, stage)
        assert len(house.shop.outbox.since(OWNER)) == heard, (kind, stage)
        assert count == [
            house.rows(f"SELECT count(*) FROM {one} WHERE number IS NOT NULL")[0][0]
            for one in tables
        ], (kind, stage)


@pytest.mark.parametrize("stage", STAGES)
def test_a_stranger_learns_nothing_from_a_number(house: House, stage: str) -> None:
    """The owner hears where the order stands; somebody else hears nothing of it."""
    house.move(stage)
    house.says(house.number)
    mine = house.shop.outbox.since(OWNER)[-1].say
    assert mine.lines[0].key == f"status.{stage}"
    last = house.rows("SELECT max(seq) FROM outbox")[0][0]
    house.says(house.number, person=STRANGER)
    heard = house.shop.outbox.since(STRANGER, last)
    assert heard
    keys = {line.key for letter in heard for line in letter.say.lines}
    assert not any(key.startswith("status.") for key in keys)
