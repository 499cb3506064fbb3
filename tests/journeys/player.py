"""Plays a chat written down in plain text.

A journey is a text file. What a person does stands behind `>`; what must be seen behind `<`.

    # a remark
    anna> 36,1                     she types
    anna> [isolate]                she taps the choice of that id, or with that label
    anna> [yes of 4]               … of the 4th message she received
    anna> (edit 3) 365             she edits her 3rd message
    anna> (reply 5) 365            she replies to the 5th message she received
    anna> (photo) caption          she sends a photo
    anna> (voice)                  she sends a voice note
    anna> (again) 36,1             the same message arrives twice
    desk:maria> ask side_to_side v1: please measure outside
    clock> 3 days                  time passes; what comes due happens
    restart>                       all that is in memory is gone
    anna< Side to side             one of the messages to her since then says so
    anna< not: 363                 none of them does
    anna? side_to_side             this is what she is asked now
    anna? side_to_side again       … once more
    desk< handed in                one of the messages to all staff says so
    desk:maria< refused newer-version
    orders< 1                      so many orders there are
    order< handed-in v1            the newest order stands there
    count anna< 18                 so many messages and taps came from her so far

`NUMBER` stands for the number of the newest order, as people read it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from bot.ports import Message
from bot.presenter import Presenter
from conversations import reference
from conversations.context import Context, OrderView
from conversations.effects import (
    Contact,
    Effect,
    NoMoreReminders,
    OrderVersion,
    Remind,
    Say,
    StageMoved,
)
from conversations.events import Choose, Desk, DeskVerb, Due, Edit, Event, Photo, Text, Voice
from conversations.machine import advance
from conversations.session import Session, load
from sizing.workshop import default_figures

START = datetime(2026, 3, 2, 9, tzinfo=UTC)
_ACT = re.compile(r"^(?P<who>[\w:]+)>\s?(?P<what>.*)$")
_SEE = re.compile(r"^(?P<who>[\w: ]+)<\s?(?P<what>.*)$")
_ASKED = re.compile(r"^(?P<who>\w+)\?\s?(?P<what>.*)$")
_MARK = re.compile(r"^\((?P<mark>\w+)(?: (?P<k>\d+))?\)\s?(?P<rest>.*)$")
_DESK = re.compile(
    r"^(?P<verb>[\w-]+)(?: (?P<measure>[a-z_]+))?(?: v(?P<version>\d+))?(?::\s*(?P<note>.*))?$"
)


@dataclass(frozen=True)
class Row:
    """One line of a journey: its number in the file, who, what, and of which kind."""

    at: int
    kind: str
    who: str
    what: str


def rows(text: str) -> Iterator[Row]:
    """The lines of a journey; a line that fits no form is an error of its writer."""
    for at, raw in enumerate(text.splitlines(), 1):
        line = raw.rstrip()
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        for kind, form in (("act", _ACT), ("asked", _ASKED), ("see", _SEE)):
            if match := form.match(line.strip()):
                yield Row(at, kind, match["who"].strip(), match["what"].strip())
                break
        else:
            raise ValueError(f"line {at} of the journey: {line!r}")


@dataclass
class Person:
    """What the world outside the machine keeps of one person."""

    session: str
    orders: dict[str, OrderView] = field(default_factory=dict)
    reminders: dict[str, datetime] = field(default_factory=dict)
    contact: str | None = None
    received: list[Message] = field(default_factory=list)
    acts: int = 0


class Player:
    """A world in memory around the pure machine: enough for a conversation, nothing more."""

    def __init__(self, language: str = "en") -> None:
        self.language = language
        self.now = START
        self.people: dict[str, Person] = {}
        self.fresh: list[tuple[str, Message]] = []
        self.seen: set[str] = set()
        self.effects: list[Effect] = []
        self._payload = 482_916
        self._present = Presenter().present
        self._next_number()

    def _next_number(self) -> None:
        self._payload += 1
        while (number := reference.complete(self._payload)) is None:
            self._payload += 1
        self.next_number = number

    def person(self, name: str) -> Person:
        """The person of that name, new if need be."""
        if name not in self.people:
            self.people[name] = Person(Session(person=name).model_dump_json())
        return self.people[name]

    @property
    def numbers(self) -> list[str]:
        """All order numbers in the order they were given."""
        return [number for person in self.people.values() for number in person.orders]

    def send(self, event: Event) -> None:
        """One event through the machine, and its effects into this world."""
        if event.id in self.seen:
            return
        self.seen.add(event.id)
        person = self.person(event.person)
        context = Context(
            now=self.now, figures=default_figures(), next_number=self.next_number,
            orders=tuple(person.orders.values()), contact=person.contact,
        )  # fmt: skip
        session, effects = advance(load(person.session), event, context)
        person.session = session.model_dump_json()
        for effect in effects:
            self.effects.append(effect)
            self._do(person, event.person, effect)

    def _do(self, person: Person, name: str, effect: Effect) -> None:
        if isinstance(effect, Say):
            message = self._present(effect)
            to = name if effect.to == "person" else effect.to
            if effect.to == "person":
                person.received.append(message)
            self.fresh.append((to, message))
        elif isinstance(effect, Contact):
            person.contact = effect.text
        elif isinstance(effect, OrderVersion):
            before = person.orders.get(effect.number)
            assert effect.version == (before.version + 1 if before else 1), (
                "versions follow each other"
            )
            if before is None:
                assert effect.number == self.next_number
                self._next_number()
            person.orders[effect.number] = OrderView(
                effect.number, effect.version, effect.stage, self.now
            )
        elif isinstance(effect, StageMoved):
            person.orders[effect.number] = OrderView(
                effect.number, effect.version, effect.stage, self.now
            )
        elif isinstance(effect, Remind):
            person.reminders[effect.what] = effect.at
        elif isinstance(effect, NoMoreReminders):
            for what in [what for what in person.reminders if what.startswith(effect.beginning)]:
                del person.reminders[what]

    # --- playing a journey ------------------------------------------------------------

    def play(self, text: str) -> None:
        """Play a journey; an `AssertionError` names the line that does not hold."""
        for row in rows(text):
            if row.kind == "act":
                self._act(row)
            else:
                problem = self._asked(row) if row.kind == "asked" else self._see(row)
                assert not problem, (
                    f"line {row.at}: {row.who} {row.what}: {problem}\n{self._shown()}"
                )

    def _shown(self) -> str:
        return "\n".join(
            f"--- to {to} [{m.question}]\n{m.text}\n{[b.id for b in m.buttons]}"
            for to, m in self.fresh
        )

    def _act(self, row: Row) -> None:
        self.fresh = []
        if row.who == "clock":
            self._pass(row.what)
        elif row.who == "restart":
            for person in self.people.values():
                person.session = load(person.session).model_dump_json()
        elif row.who.startswith("desk:"):
            self.send(self._desk_event(row))
        else:
            self._person_acts(row)

    def _pass(self, what: str) -> None:
        amount, unit = what.split()
        until = self.now + timedelta(**{unit if unit.endswith("s") else unit + "s": int(amount)})
        while due := sorted(
            (at, name, what)
            for name, person in self.people.items()
            for what, at in person.reminders.items()
            if at <= until
        ):
            self.now, name, what = due[0]
            del self.people[name].reminders[what]
            self.send(Due(id=f"due-{name}-{what}-{self.now}", person=name, at=self.now, what=what))
        self.now = until

    def _desk_event(self, row: Row) -> Desk:
        match = _DESK.match(row.what)
        assert match, f"line {row.at}: not a desk action: {row.what}"
        number = self.numbers[-1] if self.numbers else "00000000"
        owner = next(
            (name for name, person in self.people.items() if number in person.orders), "nobody"
        )
        return Desk(
            id=f"line-{row.at}", person=owner, at=self.now, by=row.who.removeprefix("desk:"),
            verb=DeskVerb(match["verb"]), number=number, measure=match["measure"],
            version=int(match["version"]) if match["version"] else None, note=match["note"] or "",
        )  # fmt: skip

    def _person_acts(self, row: Row) -> None:
        person = self.person(row.who)
        person.acts += 1
        self.now += timedelta(seconds=20)
        base: dict[str, Any] = {
            "id": f"line-{row.at}-{person.acts}", "person": row.who, "at": self.now,
            "language_hint": self.language,
        }  # fmt: skip
        mark = _MARK.match(row.what)
        what = row.what.replace(
            "NUMBER", reference.format(self.numbers[-1]) if self.numbers else ""
        )
        if row.what.startswith("["):
            self.send(self._tap(person, base, row.what.strip("[]")))
        elif mark is None:
            self.send(Text(text=what, **base))
        elif mark["mark"] == "edit":
            self.send(Edit(message=int(mark["k"]), text=mark["rest"], **base))
        elif mark["mark"] == "reply":
            self.send(Text(text=mark["rest"], reply_to=int(mark["k"]), **base))
        elif mark["mark"] == "photo":
            self.send(Photo(photo="0" * 64, caption=mark["rest"], **base))
        elif mark["mark"] == "voice":
            self.send(Voice(**base))
        elif mark["mark"] == "again":
            self.send(Text(text=mark["rest"], **base))
            self.send(Text(text=mark["rest"], **base))
        else:
            raise ValueError(f"line {row.at}: {row.what!r}")

    def _tap(self, person: Person, base: dict[str, Any], what: str) -> Choose:
        choice, _, k = what.partition(" of ")
        received = person.received[int(k) - 1 : int(k)] if k else reversed(person.received)
        for message in received:
            for shown in message.buttons:
                if choice in (shown.id, shown.label):
                    return Choose(choice=shown.id, of=int(k) if k else None, **base)
        return Choose(choice=choice, of=int(k) if k else None, **base)

    def _asked(self, row: Row) -> str | None:
        asked = [m for m in self.person(row.who).received if m.question is not None]
        if not asked:
            return "nothing was asked"
        newest = asked[-1]
        found = f"{newest.question} again" if newest.again else newest.question
        return None if found == row.what else f"asked is {found}"

    def _see(self, row: Row) -> str | None:
        if row.who == "orders":
            return None if len(self.numbers) == int(row.what) else f"there are {len(self.numbers)}"
        if row.who == "order":
            order = next(
                o
                for p in self.people.values()
                for o in p.orders.values()
                if o.number == self.numbers[-1]
            )
            found = f"{order.stage} v{order.version}"
            return None if found == row.what else f"it is {found}"
        if row.who.startswith("count "):
            acts = self.person(row.who.removeprefix("count ")).acts
            return None if acts == int(row.what) else f"it was {acts}"
        texts = [m for to, m in self.fresh if to == row.who]
        if row.what.startswith("refused "):
            codes = [m.refused for m in texts]
            return None if row.what.removeprefix("refused ") in codes else f"refused: {codes}"
        number = reference.format(self.numbers[-1]) if self.numbers else ""
        wanted = row.what.removeprefix("not: ").replace("NUMBER", number).replace("\u00a0", " ")
        there = any(
            wanted in f"{m.text} {' '.join(b.label for b in m.buttons)}".replace("\u00a0", " ")
            for m in texts
        )
        if row.what.startswith("not: "):
            return "it was said" if there else None
        return None if there else "nobody said so"


def journeys(folder: Path) -> list[Path]:
    """All journeys of a folder."""
    return sorted(folder.glob("*.txt"))
