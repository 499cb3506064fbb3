"""One order as the desk sees it: what was typed and understood, the cage, the doubts, the way."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from bot.desk.queue import turn_of
from bot.storage import orders
from bot.storage.answers import NOTE
from bot.storage.database import Database
from bot.storage.times import moment
from conversations.steps import Step

__all__ = ["Answer", "Note", "Photo", "Sheet", "Stage", "read"]

_ORDER = [step.value for step in Step]


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer of the order: what was typed and what was understood [mm, count or choice]."""

    question: str
    raw: str | None
    reading: str | None
    how: str
    at: datetime


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


def read(database: Database, number: str) -> Sheet | None:
    """The order of that number in its newest version, or None."""
    with database.reading() as connection:
        order = orders.shown(connection, database.sealer, number)
        if order is None:
            return None
        answers = connection.execute(
            "SELECT question, raw, reading, how, at FROM answers"
            " WHERE number = ? AND superseded_by IS NULL",
            [number],
        ).fetchall()
        photos = connection.execute(
            "SELECT sha, question FROM photos WHERE number = ? ORDER BY id", [number]
        ).fetchall()
        notes = connection.execute(
            "SELECT what, by, at, text_sealed FROM notes WHERE number = ? ORDER BY id", [number]
        ).fetchall()
        return Sheet(
            number=order["number"],
            version=order["version"],
            stage=order["stage"],
            turn=turn_of(order["stage"]),
            person=order["person"],
            contact=order["contact"],
            handed_in_at=moment(order["handed_in_at"]),
            cages=tuple(order["cages"]),
            findings=tuple(order["findings"]),
            answers=tuple(
                Answer(row["question"], row["raw"], row["reading"], row["how"], moment(row["at"]))
                for row in sorted(answers, key=lambda row: _ORDER.index(row["question"]))
            ),
            photos=tuple(Photo(row["sha"], row["question"]) for row in photos),
            notes=tuple(
                Note(
                    row["what"],
                    row["by"],
                    moment(row["at"]),
                    database.sealer.open(row["text_sealed"], NOTE),
                )
                for row in notes
            ),
            stages=tuple(
                Stage(stage["stage"], stage["by"], moment(stage["at"]), stage["version"])
                for stage in order["stages"]
            ),
        )
