"""What a turn wants done, done: one small function for each kind of effect."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from bot.ports import Chance
from bot.storage import (
    answers,
    audit,
    due,
    numbers,
    orders,
    outbox,
    people,
    staff,
    telling,
)  # fmt: skip
from bot.storage.sealing import Sealer
from conversations.effects import (
    Answered,
    Cage,
    Contact,
    Effect,
    Journal,
    NoMoreReminders,
    Noted,
    OrderVersion,
    PhotoKept,
    Remind,
    Say,
    StageMoved,
    Wipe,
)  # fmt: skip

__all__ = ["LOCAL", "TERMINAL", "Doing", "carry_out"]

TERMINAL = "talk"
LOCAL = frozenset({TERMINAL})
"""Channels that only who runs the program can use: there everybody may do everything."""


@dataclass(slots=True)
class Doing:
    """What the functions below need to know: whose turn it is, when, and where it is written.

    `heard` counts the messages the person received, these included. `rung` gathers the
    mailboxes that got a message.
    """

    connection: sqlite3.Connection
    sealer: Sealer
    chance: Chance
    design: Callable[[Cage], orders.DesignedCage]
    person: str
    at: datetime
    event: int
    heard: int
    channel: str = ""
    rung: set[str] = field(default_factory=set)


def carry_out(effect: Effect, doing: Doing) -> None:
    """Do what the effect says."""
    _DOERS[type(effect)](effect, doing)


def _say(say: Say, doing: Doing) -> None:
    to, channel, k = say.to, outbox.DESK, None
    if say.to == "person":
        to = doing.person
        channel = people.channel_of(doing.connection, to) or outbox.DESK
        doing.heard += 1
        k = doing.heard
    if to == outbox.DESK:
        doing.rung |= telling.tell(
            doing.connection, doing.sealer, say, at=doing.at, event=doing.event
        )
        return
    _put(say, doing, to, channel, k)
    for address in _also(say, doing):
        _put(say, doing, address, people.channel_of(doing.connection, address) or channel, None)


def _put(say: Say, doing: Doing, to: str, channel: str, k: int | None) -> None:
    outbox.put(
        doing.connection, doing.sealer, say,
        to=to, channel=channel, k=k, at=doing.at, event=doing.event,
    )  # fmt: skip
    doing.rung.add(to)


def _also(say: Say, doing: Doing) -> list[str]:
    """Under which other address staff hear an answer: where they acted."""
    if say.to.startswith("desk:") and doing.channel not in LOCAL | {outbox.DESK}:
        found = staff.member(doing.connection, say.to.removeprefix("desk:"))
        return [found.address] if found is not None and found.address is not None else []
    return []


def _answered(said: Answered, doing: Doing) -> None:
    answers.answer(doing.connection, doing.person, said, doing.at)


def _contact(contact: Contact, doing: Doing) -> None:
    people.keep_contact(doing.connection, doing.sealer, doing.person, contact.text)


def _photo_kept(kept: PhotoKept, doing: Doing) -> None:
    answers.attach_photo(doing.connection, doing.person, kept, doing.at)


def _order_version(made: OrderVersion, doing: Doing) -> None:
    connection = doing.connection
    before = None if made.version == 1 else orders.stage_of(connection, made.number)
    cages = [doing.design(cage) for cage in made.cages]
    orders.add_version(connection, doing.person, made, cages, doing.at)
    if made.version == 1:
        answers.hand_over(connection, doing.person, made.number)
        if numbers.next_number(connection, doing.chance) == made.number:
            numbers.redraw(connection, doing.chance)
    _came_to(made, before, doing)


def _stage_moved(moved: StageMoved, doing: Doing) -> None:
    before = orders.stage_of(doing.connection, moved.number)
    orders.move(doing.connection, moved, doing.at)
    _came_to(moved, before, doing)
    doing.rung |= telling.tell_moved(
        doing.connection, doing.sealer, moved, before, at=doing.at, event=doing.event
    )
    # Whoever looks at the desk sees it, also where nothing is said to all.
    doing.rung.add(outbox.DESK)


def _came_to(made: OrderVersion | StageMoved, before: str | None, doing: Doing) -> None:
    entry = Journal(
        what=audit.STAGE, by=made.by, number=made.number, version=made.version,
        before=before, after=made.stage,
    )  # fmt: skip
    audit.journal(doing.connection, doing.person, entry, doing.at)


def _noted(noted: Noted, doing: Doing) -> None:
    answers.note(doing.connection, doing.sealer, noted, doing.at)
    doing.rung.add(outbox.DESK)


def _remind(reminder: Remind, doing: Doing) -> None:
    due.remind(doing.connection, doing.person, reminder.what, reminder.at)


def _no_more_reminders(ended: NoMoreReminders, doing: Doing) -> None:
    due.cancel(doing.connection, doing.person, ended.beginning)


def _journal(entry: Journal, doing: Doing) -> None:
    audit.journal(doing.connection, doing.person, entry, doing.at)


def _wipe(_wipe: Wipe, doing: Doing) -> None:
    answers.wipe(doing.connection, doing.person)


_DOERS: dict[type[Effect], Callable[[Any, Doing], None]] = {
    Say: _say,
    Answered: _answered,
    Contact: _contact,
    PhotoKept: _photo_kept,
    OrderVersion: _order_version,
    StageMoved: _stage_moved,
    Noted: _noted,
    Remind: _remind,
    NoMoreReminders: _no_more_reminders,
    Journal: _journal,
    Wipe: _wipe,
}
