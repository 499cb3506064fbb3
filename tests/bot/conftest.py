"""A workshop on a database of its own, a clock that stands still, and a machine on a string.

The machine on a string does what the text says, so that a test of the shell names what a turn
wants done: `say hello`, `answer 360`, `contact +48 …`, `order`, `remind look 60`, `break`.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from bot.bell import Bell
from bot.outbox import Outbox
from bot.service import Service
from bot.storage.database import Database, open_database
from bot.storage.orders import DesignedCage
from bot.world import SeededChance, SetClock
from conversations.context import Context
from conversations.effects import (
    Answered,
    Cage,
    Contact,
    Effect,
    Free,
    Journal,
    Line,
    NoMoreReminders,
    Noted,
    OrderVersion,
    PhotoKept,
    Remind,
    Say,
    StageMoved,
    Wipe,
)
from conversations.events import Desk, DeskVerb, Due, Event, Photo, Text
from conversations.session import Session
from sizing.measures import Frame, Length, Purpose, Request
from sizing.workshop import default_figures

START = datetime(2026, 3, 2, 9, tzinfo=UTC)


def a_request() -> Request:
    """The least that a cage can be asked for with."""
    frame = Frame(
        side_to_side=Length((Fraction(360),)),
        top_to_bottom=Length((Fraction(260),)),
        lug_to_lug=Length((Fraction(391),)),
    )
    return Request(purpose=Purpose.ISOLATE, frame=frame)


def a_design(cage: Cage) -> DesignedCage:
    """A cage as if it had been sized, with one finding."""
    finding = {
        "code": "comb-fatter-than-wood",
        "severity": "note",
        "measures": ["comb_thickness", "widest_wood"],
        "seen": 38.5,
        "expected": [None, 38],
        "source": "ours",
    }
    return DesignedCage(
        item=cage.item,
        label=cage.label,
        pieces=cage.pieces,
        request={"purpose": cage.request.purpose.value},
        design={
            "verdict": "make",
            "workshop_version": "1",
            "findings": [finding],
            "cage": {"length_outside": 370.0, "height_overall": 270.0, "depth_outside": None},
            "lid": {"kind": "end-open"},
        },
    )


class Machine:
    """The machine on a string; `turns` lists what it was given, also where it broke."""

    def __init__(self) -> None:
        self.turns: list[str] = []

    def advance(
        self, session: Session, event: Event, context: Context
    ) -> tuple[Session, Sequence[Effect]]:
        """Do what the event says."""
        self.turns.append(event.id)
        effects: list[Effect] = []
        said = session.said_count
        if isinstance(event, Due):
            effects.append(spoken(f"due {event.what}"))
        elif isinstance(event, Desk):
            effects.extend(by_the_desk(event, context))
        elif isinstance(event, Photo):
            effects.append(PhotoKept(photo=event.photo, question="side_to_side"))
            said += 1
        else:
            assert isinstance(event, Text)
            said += 1
            for command in event.text.split(";"):
                effects.extend(by_the_person(command.strip(), context))
        to_person = sum(isinstance(effect, Say) and effect.to == "person" for effect in effects)
        counts = {"heard_count": session.heard_count + to_person, "said_count": said}
        return session.model_copy(update=counts), tuple(effects)


def spoken(text: str, to: str = "person") -> Say:
    """A message that consists of these words."""
    return Say(to=to, lines=(Line(key="free", values={"text": Free(text=text)}),))


def words(say: Say) -> str:
    """The words of a message made by `spoken`, or the key of any other."""
    value = say.lines[0].values.get("text")
    return value.text if isinstance(value, Free) else say.lines[0].key


def by_the_desk(event: Desk, context: Context) -> list[Effect]:
    """`note` keeps a note; every other verb moves the order to a stage of that name."""
    order = context.order(event.number)
    assert order is not None
    if event.verb is DeskVerb.NOTE:
        return [Noted(number=order.number, by=event.by, what="note", text=event.note)]
    version = event.version or order.version
    moved = StageMoved(number=order.number, version=version, stage=event.verb, by=event.by)
    return [moved, spoken(f"stage {event.verb}"), spoken("done", f"desk:{event.by}")]


def by_the_person(command: str, context: Context) -> list[Effect]:
    """What one command wants done."""
    verb, _, rest = command.partition(" ")
    match verb:
        case "say":
            return [spoken(rest)]
        case "desk":
            return [spoken(rest, "desk")]
        case "answer":
            return [an_answer("side_to_side", rest), spoken(f"noted {rest}")]
        case "name":
            return [an_answer("frame_name", rest)]
        case "contact":
            return [Contact(text=rest)]
        case "order":
            return [a_version(context.next_number, 1), spoken("ordered"), spoken("new", "desk")]
        case "version":
            number, version = rest.split()
            return [a_version(number, int(version))]
        case "remind":
            what, seconds = rest.split()
            at = context.now + timedelta(seconds=float(seconds))
            return [Remind(what=what, at=at)]
        case "forget":
            return [NoMoreReminders(beginning=rest)]
        case "journal":
            return [Journal(what=rest, by="beekeeper")]
        case "wipe":
            return [Wipe()]
        case _:
            raise RuntimeError(command)


def an_answer(question: str, text: str) -> Answered:
    """An answer that was typed."""
    return Answered(question=question, raw=text, reading=text, how="typed", step=Fraction(1, 2))


def a_version(number: str, version: int) -> OrderVersion:
    """A version of an order for two cages of one kind."""
    return OrderVersion(
        number=number,
        version=version,
        stage="handed-in",
        cages=(Cage(pieces=2, request=a_request()),),
        by="beekeeper",
        reason="handed-in" if version == 1 else "changed",
    )


@dataclass
class Shop:
    """A service on a database that can be closed and opened again, as after a crash."""

    folder: Path
    clock: SetClock = field(default_factory=lambda: SetClock(START))
    machine: Machine = field(default_factory=Machine)
    chance: SeededChance = field(default_factory=lambda: SeededChance(0))
    bell: Bell = field(default_factory=Bell)

    def __post_init__(self) -> None:
        self.count = 0
        self.open()

    def open(self) -> None:
        """Open the database and start a service on it."""
        self.database: Database = open_database(
            self.folder / "data" / "workshop.db", self.folder / "secret" / "key"
        )
        self.outbox = Outbox(self.database, self.clock)
        self.service = Service(
            self.database,
            advance=self.machine.advance,
            design=a_design,
            clock=self.clock,
            chance=self.chance,
            figures=default_figures(),
            bell=self.bell,
        )

    def reopen(self) -> None:
        """Close and open again: what was only in memory is gone."""
        self.database.close()
        self.open()

    def text(self, text: str, person: str = "anna", identity: str | None = None) -> Text:
        """An event that says `text`."""
        self.count += 1
        name = identity or f"e{self.count}"
        return Text(id=name, person=person, at=self.clock.now(), text=text)

    def desk(self, verb: DeskVerb, number: str, by: str = "maria", note: str = "") -> Desk:
        """What a member of staff does with an order."""
        self.count += 1
        return Desk(
            id=f"d{self.count}",
            person="",
            at=self.clock.now(),
            by=by,
            verb=verb,
            number=number,
            note=note,
        )

    def send(self, text: str, person: str = "anna") -> bool:
        """Have the service take what the person says."""
        return self.service.receive(self.text(text, person), "web")

    def said_to(self, to: str = "anna") -> list[str]:
        """All that was said to this mailbox."""
        return [words(letter.say) for letter in self.outbox.since(to)]

    def rows(self, question: str, *values: object) -> list[tuple[Any, ...]]:
        """What the database answers."""
        with self.database.reading() as connection:
            return [tuple(row) for row in connection.execute(question, values)]


@pytest.fixture(autouse=True)
def loud_again() -> Iterator[None]:
    """Telegram silences its libraries; the next test hears them again."""
    names = ("httpx", "httpcore", "telegram")
    levels = {name: logging.getLogger(name).level for name in names}
    yield
    for name, level in levels.items():
        logging.getLogger(name).setLevel(level)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    """A workshop that nothing happened in yet."""
    made = Shop(tmp_path)
    yield made
    made.database.close()


@pytest.fixture
def new_shop() -> Callable[[Path], Shop]:
    """Makes workshops in folders that a test chooses itself."""
    return Shop


@pytest.fixture
def database(shop: Shop) -> Database:
    """An empty database."""
    return shop.database
