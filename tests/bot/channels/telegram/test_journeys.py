"""The same journeys as everywhere, over Telegram: each message is the one the machine says."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pytest
from bot_api import Person, Sent
from PIL import Image
from player import Player, Row, rows

FOLDER = Path(__file__).parents[3] / "journeys"
PLAYED = (
    "bundled", "correction_by_edit", "desk_asks_again", "floor_below",
    "happy_path", "happy_path_polish", "inches", "insist", "introduce", "low_rise", "precision",
    "proposals", "reply_to_older", "same_message_twice", "start_over",
    "turned_down", "two_people", "unreadable",
)  # fmt: skip
_NUMBER = re.compile(r"\d{3}\u00a0\d{3}\u00a0\d{2}")
_DAY = re.compile(r"\w+ \d{1,2}, \d{4}|\d{1,2} \w+ \d{4}")
_MARK = re.compile(r"^\((?P<mark>\w+)(?: (?P<k>\d+))?\)\s?(?P<rest>.*)$")
_DESK = re.compile(r"^([\w-]+)(?: ([a-z_]+))?(?: v(\d+))?(?::\s*(.*))?$")


def plain(text: str) -> str:
    """A text without the order number and the day, which differ."""
    return _DAY.sub("DAY", _NUMBER.sub("NUMBER", text))


class Double:
    """Plays a journey in both worlds, act by act."""

    def __init__(self, world: Any, language: str) -> None:
        self.world = world
        self.player = Player(language)
        self.language = language
        self.people: dict[str, Person] = {}
        self.said: dict[str, list[dict[str, Any]]] = {}

    def who(self, name: str) -> Person:
        """The same person on the phone."""
        if name not in self.people:
            self.people[name] = Person(100 + len(self.people), language=self.language, name=name)
            self.said[name] = []
        return self.people[name]

    async def act(self, row: Row) -> None:
        """One act, and the messages it brings, in both worlds."""
        before = {name: len(person.received) for name, person in self.player.people.items()}
        if not row.who.startswith("desk:"):
            self.who(row.who)
        tapped = self.label(row)
        self.player._act(row)
        if row.who.startswith("desk:"):
            self.desk(row)
        else:
            self.person(row, tapped)
        for name, person in self.player.people.items():
            who = self.who(name)
            expected = [plain(message.text) for message in person.received]
            await self.heard(who, len(expected))
            heard = [plain(one.text) for one in self.reached(who)]
            assert heard[before.get(name, 0) :] == expected[before.get(name, 0) :], row

    async def heard(self, who: Person, count: int) -> None:
        """Wait until so many messages reached this person."""
        await self.world.until(lambda: len(self.reached(who)) >= count)

    def reached(self, who: Person) -> list[Sent]:
        """What reached this person with words in it: a long text has its picture before it."""
        return [one for one in self.world.api.to(who) if one.text]

    def label(self, row: Row) -> tuple[str, int | None]:
        """The label of what is tapped, and in which message it stands."""
        if not row.what.startswith("["):
            return "", None
        choice, _, k = row.what.strip("[]").partition(" of ")
        received = self.player.person(row.who).received
        for place in [int(k)] if k else range(len(received), 0, -1):
            for shown in received[place - 1].buttons:
                if choice in (shown.id, shown.label):
                    return shown.label, place
        return choice, None

    def person(self, row: Row, tapped: tuple[str, int | None]) -> None:
        """The same on the phone."""
        api, who = self.world.api, self.who(row.who)
        mark = _MARK.match(row.what)
        if row.what.startswith("["):
            label, place = tapped
            if place is None:  # not offered now, but always there as a command
                api.says(who, f"/{label}")
            else:
                api.taps(who, self.reached(who)[place - 1], label)
        elif mark is None:
            self.said[row.who].append(api.says(who, row.what))
        elif mark["mark"] == "edit":
            edited = self.said[row.who][int(mark["k"]) - 1]["message"]["message_id"]
            api.edits(who, edited, mark["rest"])
        elif mark["mark"] == "reply":
            to = self.reached(who)[int(mark["k"]) - 1].id
            self.said[row.who].append(api.says(who, mark["rest"], reply_to=to))
        elif mark["mark"] == "again":
            update = api.says(who, mark["rest"])
            self.said[row.who].append(update)
            with api._lock:
                api.updates.append({**update, "update_id": api._next_update})
                api._next_update += 1
        elif mark["mark"] == "photo":
            picture = io.BytesIO()
            Image.new("RGB", (64, 48), "wheat").save(picture, "JPEG")
            caption = {"caption": mark["rest"]} if mark["rest"] else {}
            self.said[row.who].append(api.photographs(who, picture.getvalue(), **caption))
        else:
            self.said[row.who].append(api.sends(who, voice={"file_id": "v", "duration": 2}))

    def desk(self, row: Row) -> None:
        """The same at the desk."""
        match = _DESK.match(row.what)
        assert match is not None
        verb, measure, version, note = match.groups()
        with self.world.shop.database.reading() as connection:
            newest = connection.execute(
                "SELECT number FROM orders ORDER BY handed_in_at DESC, rowid DESC LIMIT 1"
            ).fetchone()
        number = newest["number"] if newest else "00000000"
        more = {"measure": measure, "note": note or ""}
        self.world.desk(verb, number, version=int(version) if version else None, **more)


@pytest.mark.slow
@pytest.mark.parametrize("name", PLAYED)
async def test_a_journey_says_the_same_on_telegram(world: Any, name: str) -> None:
    """Word for word, whatever way the conversation travels."""
    double = Double(world, "pl" if name.endswith("polish") else "en")
    for row in rows((FOLDER / f"{name}.txt").read_text(encoding="utf-8")):
        if row.kind == "act":
            await double.act(row)
    assert world.api.problems == []
