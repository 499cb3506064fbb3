"""One order as the desk sees it: what was typed and understood, the cage, the doubts, the way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from sqlite3 import Connection
from typing import Any

from bot.desk.history import remarks_on
from bot.desk.queue import turn_of
from bot.desk.versions import Version, versions_of
from bot.storage import orders, people
from bot.storage.answers import NOTE
from bot.storage.database import Database
from bot.storage.sealing import Sealer
from bot.storage.times import moment
from conversations.review import Role
from conversations.steps import Step

__all__ = ["Answer", "Note", "Photo", "Sheet", "Stage", "read"]

BEEKEEPER = "beekeeper"
_ORDER = [step.value for step in Step]


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer of the order: what was typed and what was understood [mm, count or choice]."""

    question: str
    raw: str | None
    reading: str | None
    how: str
    at: datetime
    resolution: float | None = None
    """[mm] the step in which it was typed."""


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo that belongs to the order."""

    sha: str
    question: str | None


@dataclass(frozen=True, slots=True)
class Note:
    """What staff wrote, and to what end: the verb it was written with."""

    what: str
    by: str
    at: datetime
    text: str


@dataclass(frozen=True, slots=True)
class Stage:
    """A stage the order came to."""

    stage: str
    by: str
    at: datetime
    version: int


@dataclass(frozen=True, slots=True)
class Sheet:
    """The order on one screen. `cages` and `findings` have the form of the contract."""

    number: str
    version: int
    stage: str
    turn: str
    person: str
    contact: str | None
    handed_in_at: datetime
    cages: tuple[dict[str, Any], ...]
    findings: tuple[dict[str, Any], ...]
    answers: tuple[Answer, ...]
    photos: tuple[Photo, ...]
    notes: tuple[Note, ...]
    stages: tuple[Stage, ...]
    versions: tuple[Version, ...] = ()
    language: str = "en"
    """What the beekeeper reads."""
    orders_before: int = 0
    """How many orders this person handed in before."""
    reachable: bool = True
    """Whether what is said to the beekeeper arrives, as far as is known."""

    @property
    def moved_by(self) -> str | None:
        """Who of staff brought the order to where it stands; None where the beekeeper did."""
        here = [one for one in self.stages if one.stage == self.stage]
        return here[-1].by if here and here[-1].by != BEEKEEPER else None

    @property
    def stopped(self) -> bool:
        """Something stands against this version: clearing it takes a reason in words."""
        return any(finding["severity"] == "stop" for finding in self.findings) or any(
            cage["design"]["verdict"] == "cannot" for cage in self.cages
        )


def read(database: Database, number: str, role: Role = Role.DESK) -> Sheet | None:
    """The order of that number in its newest version, or None.

    The bench sees sizes and what was written to them; how to reach somebody and their photos
    are for those who deal with people.
    """
    at_the_bench = role is Role.BENCH
    with database.reading() as connection:
        order = orders.shown(connection, database.sealer, number)
        if order is None:
            return None
        return Sheet(
            number=order["number"],
            version=order["version"],
            stage=order["stage"],
            turn=turn_of(order["stage"]),
            person=order["person"],
            contact=None if at_the_bench else order["contact"],
            handed_in_at=moment(order["handed_in_at"]),
            cages=tuple(order["cages"]),
            findings=(*order["findings"], *remarks_on(connection, order)),
            answers=_answers(connection, number),
            photos=() if at_the_bench else _photos(connection, number),
            notes=_notes(connection, database.sealer, number),
            stages=tuple(
                Stage(stage["stage"], stage["by"], moment(stage["at"]), stage["version"])
                for stage in order["stages"]
            ),
            versions=versions_of(connection, number),
            language=people.language_of(connection, order["person"]),
            orders_before=_before(connection, order),
            reachable=people.reachable(connection, order["person"]),
        )


def _answers(connection: Connection, number: str) -> tuple[Answer, ...]:
    """The answers that hold, in the order of the questions."""
    rows = connection.execute(
        "SELECT question, raw, reading, how, at, resolution FROM answers"
        " WHERE number = ? AND superseded_by IS NULL",
        [number],
    ).fetchall()
    return tuple(
        Answer(
            question=row["question"],
            raw=row["raw"],
            reading=row["reading"],
            how=row["how"],
            at=moment(row["at"]),
            resolution=row["resolution"],
        )
        for row in sorted(rows, key=lambda row: _ORDER.index(row["question"]))
    )


def _photos(connection: Connection, number: str) -> tuple[Photo, ...]:
    rows = connection.execute(
        "SELECT sha, question FROM photos WHERE number = ? ORDER BY id", [number]
    )
    return tuple(Photo(row["sha"], row["question"]) for row in rows)


def _notes(connection: Connection, sealer: Sealer, number: str) -> tuple[Note, ...]:
    rows = connection.execute(
        "SELECT what, by, at, text_sealed FROM notes WHERE number = ? ORDER BY id", [number]
    )
    return tuple(
        Note(row["what"], row["by"], moment(row["at"]), sealer.open(row["text_sealed"], NOTE))
        for row in rows
    )


def _before(connection: Connection, order: dict[str, Any]) -> int:
    row = connection.execute(
        "SELECT count(*) FROM orders WHERE person = ? AND handed_in_at < ?",
        [order["person"], order["handed_in_at"]],
    ).fetchone()
    return int(row[0])
