"""What was answered: `answers`, `photos`, and `notes` of staff."""

from __future__ import annotations

import sqlite3
from datetime import datetime
from decimal import Decimal
from fractions import Fraction

from bot.storage.sealing import Sealer
from bot.storage.times import stamp
from conversations.effects import Answered, Noted, PhotoKept
from sizing.measures import Measure

__all__ = [
    "add_photo", "answer", "attach_photo", "hand_over", "note", "photo_shas", "plain", "wipe",
]  # fmt: skip

NOTE = "notes.text_sealed"
MEASURES = frozenset(Measure)
CHOICES = frozenset({"purpose", "below", "above", "spacer", "lid", "material", "language"})
"""Questions that are answered with a code, never with words of one's own."""


def plain(value: Fraction) -> str:
    """A length or count as people write it: `460.35`; a fraction where no decimal is exact."""
    exact = Decimal(value.numerator) / value.denominator
    return f"{exact.normalize():f}" if Fraction(exact) == value else str(value)


def answer(connection: sqlite3.Connection, person: str, said: Answered, at: datetime) -> None:
    """Keep the answer; an earlier one to the same question of the same notebook is superseded.

    What was typed is kept only where a measure was asked for: elsewhere people write names.
    """
    measure = said.question in MEASURES
    reading = said.reading if measure or said.question in CHOICES else None
    if measure and reading is not None:
        reading = plain(Fraction(reading))
    new = connection.execute(
        "INSERT INTO answers (person, number, question, raw, reading, resolution, how, at)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        [
            person, said.number, said.question, said.raw if measure else None, reading,
            None if said.step is None else float(said.step), said.how, stamp(at),
        ],
    ).lastrowid  # fmt: skip
    connection.execute(
        "UPDATE answers SET superseded_by = :new WHERE person = :person AND number IS :number"
        " AND question = :question AND superseded_by IS NULL AND id <> :new",
        {"new": new, "person": person, "number": said.number, "question": said.question},
    )


def hand_over(connection: sqlite3.Connection, person: str, number: str) -> None:
    """The notebook became this order: its answers and photos belong to it now."""
    for table in ("answers", "photos"):
        connection.execute(
            f"UPDATE {table} SET number = ? WHERE person = ? AND number IS NULL",  # noqa: S608 - two constants
            [number, person],
        )


def wipe(connection: sqlite3.Connection, person: str) -> None:
    """The notebook was thrown away: what belongs to no order goes."""
    connection.execute(
        "UPDATE answers SET superseded_by = NULL WHERE person = ? AND number IS NULL", [person]
    )
    for table in ("answers", "photos"):
        connection.execute(
            f"DELETE FROM {table} WHERE person = ? AND number IS NULL",  # noqa: S608 - two constants
            [person],
        )


def add_photo(
    connection: sqlite3.Connection,
    person: str,
    sha: str,
    *,
    at: datetime,
    width: int,
    height: int,
    size: int,
) -> None:
    """A photo of the person was stored: `size` bytes, `width` by `height` pixels."""
    connection.execute(
        "INSERT INTO photos (sha, person, at, width, height, bytes) VALUES (?, ?, ?, ?, ?, ?)",
        [sha, person, stamp(at), width, height, size],
    )


def attach_photo(
    connection: sqlite3.Connection, person: str, kept: PhotoKept, at: datetime
) -> None:
    """The photo belongs to this question. One sent for several questions has a row for each."""
    known = connection.execute(
        "SELECT id, question, width, height, bytes FROM photos WHERE person = ? AND sha = ?"
        " ORDER BY question IS NOT NULL, id LIMIT 1",
        [person, kept.photo],
    ).fetchone()
    if known is not None and known["question"] is None:
        connection.execute(
            "UPDATE photos SET question = ?, number = ? WHERE id = ?",
            [kept.question, kept.number, known["id"]],
        )
        return
    shape = (None, None, None) if known is None else tuple(known)[2:]
    connection.execute(
        "INSERT INTO photos (sha, person, question, number, at, width, height, bytes)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        [kept.photo, person, kept.question, kept.number, stamp(at), *shape],
    )


def photo_shas(connection: sqlite3.Connection) -> frozenset[str]:
    """The photos that belong to somebody; any other file in the photo folder may go."""
    return frozenset(row["sha"] for row in connection.execute("SELECT DISTINCT sha FROM photos"))


def note(connection: sqlite3.Connection, sealer: Sealer, noted: Noted, at: datetime) -> None:
    """Keep what staff wrote about an order."""
    connection.execute(
        "INSERT INTO notes (number, at, by, what, text_sealed) VALUES (?, ?, ?, ?, ?)",
        [noted.number, stamp(at), noted.by, noted.what, sealer.seal(noted.text, NOTE)],
    )
