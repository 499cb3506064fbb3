"""One event, one transaction: the only place where a conversation goes on.

An event is kept, the machine takes its turn, and all that the turn wants done is written, or
nothing at all. Whoever delivered the event may forget it once `receive` has returned.

A turn that raises is rolled back and tried again; after three tries the event is dead, the
person and the desk are told, and later events go on. When it is the machine underneath that
fails (the disk is full, the file is locked), `UnavailableError` is raised instead: the event was
not taken, and is to be delivered again.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta
from sqlite3 import Connection
from typing import TypeAlias

from bot.bell import Bell
from bot.logs import log
from bot.ports import Chance, Clock
from bot.storage import due, inbox, numbers, orders, people, staff
from bot.storage.database import Database
from bot.storage.effects import LOCAL, Doing, carry_out
from bot.storage.errors import InconsistentError, SealError, UnavailableError
from bot.storage.outbox import DESK
from bot.storage.sessions import Sessions
from bot.storage.times import stamp
from conversations.context import Context
from conversations.effects import Cage, Effect, Free, Journal, Line, OrderVersion, Say
from conversations.events import Desk, Due, Event
from conversations.reference import compact
from conversations.review import MAY, Refusal, Role
from conversations.session import Asking, Session
from conversations.steps import Step
from sizing.workshop import Figures

__all__ = ["Advance", "Design", "Service"]

Advance: TypeAlias = Callable[[Session, Event, Context], tuple[Session, Sequence[Effect]]]
Design: TypeAlias = Callable[[Cage], orders.DesignedCage]

TRIES = 3
RAW_KEPT = timedelta(days=14)
CLOCK = "clock"
"""The channel on which reminders arrive."""
UNREADABLE = (SealError, ValueError)


class Service:
    """Takes events in and carries out what the machine makes of them."""

    def __init__(
        self,
        database: Database,
        *,
        advance: Advance,
        design: Design,
        clock: Clock,
        chance: Chance,
        figures: Figures,
        bell: Bell,
    ) -> None:
        self._database = database
        self._advance = advance
        self._design = design
        self._clock = clock
        self._chance = chance
        self._figures = figures
        self._bell = bell
        self._sessions = Sessions(database.sealer)
        self._turns = threading.RLock()
        self._behind = True
        """Events may stand in the inbox that have had no effect yet."""
        self._tidied: date | None = None

    # --- what channels call -----------------------------------------------------------

    def receive(self, event: Event, channel: str) -> bool:
        """Take one event; False where its id was seen on this channel before.

        Raises `UnavailableError`, after which the event is to be delivered again.
        """
        with self._turns:
            self._catch_up()
            try:
                with self._database.transaction() as connection:
                    arrived = self._arrive(connection, event, channel)
                    if arrived is None:
                        return False
                    rung = self._turn(connection, arrived)
            except UnavailableError:
                raise
            except Exception as error:  # noqa: BLE001 - whatever one turn raises, others go on
                self._keep_failed(event, channel, error)
            else:
                self._bell.ring(rung)
            return True

    def receive_many(self, events: Sequence[Event], channel: str) -> list[bool]:
        """Take several events: all are kept in one go, then each has its own turn.

        For each event, False where it was seen before. Raises `UnavailableError`, after which all
        are to be delivered again.
        """
        with self._turns:
            self._catch_up()
            with self._database.transaction() as connection:
                arrived = [self._arrive(connection, event, channel) for event in events]
            self._behind = True
            self._catch_up()
            return [one is not None for one in arrived]

    def resume(self) -> int:
        """Work off what was kept before the process ended and has had no effect; how many."""
        with self._turns:
            self._behind = True
            return self._catch_up()

    def tick(self, now: datetime | None = None) -> int:
        """Let the reminders happen that are due by `now`; how many."""
        until = now or self._clock.now()
        with self._turns:
            with self._database.reading() as connection:
                reminders = due.due_until(connection, until)
            happened = 0
            for reminder in reminders:
                event = Due(
                    id=f"{reminder.person} {reminder.what} {stamp(reminder.at)}",
                    person=reminder.person, at=reminder.at, what=reminder.what,
                )  # fmt: skip
                happened += self.receive(event, CLOCK)
            self._tidy(until)
            return happened

    def rehearse(self, event: Desk) -> tuple[Say, ...]:
        """What would be said if this happened now; nothing is kept, nobody hears of it.

        A question that would have to wait for another one is said as it will be then.
        """
        with self._turns, self._database.reading() as connection:
            event = _addressed(connection, event)
            refused = self._refused(connection, event, DESK)
            if refused is not None:
                return (refused,)
            session = self._sessions.of(connection, event.person)
            context = self._context(connection, event.person, self._clock.now())
            resting = session.model_copy(update={"asking": Asking(step=Step.RESTING)})
            for before in (session, resting):
                _, effects = self._advance(before, event, context)
                said = tuple(effect for effect in effects if isinstance(effect, Say))
                if any(say.to == "person" for say in said):
                    break
            return said

    def make_version(self, made: OrderVersion) -> None:
        """Keep a later version of an order that came of no conversation.

        Raises `InconsistentError` where there is no such order or the version does not follow.
        """
        with self._turns:
            with self._database.transaction() as connection:
                owner = orders.owner_of(connection, made.number)
                if owner is None:
                    raise InconsistentError("no-such-order", made.number)
                carry_out(made, self._doing(connection, owner, self._clock.now(), event=0))
            self._bell.ring({DESK, owner})

    def next_reminder(self) -> datetime | None:
        """When something is due next."""
        with self._database.reading() as connection:
            return due.next_moment(connection)

    # --- one turn ---------------------------------------------------------------------

    def _arrive(self, connection: Connection, event: Event, channel: str) -> inbox.Arrived | None:
        event = _writable(event)
        if isinstance(event, Due) and not due.take(connection, event.person, event.what, event.at):
            return None
        if isinstance(event, Desk):
            event = _addressed(connection, event)
        return inbox.arrive(connection, self._database.sealer, event, channel, self._clock.now())

    def _turn(self, connection: Connection, arrived: inbox.Arrived) -> set[str]:
        """Have the machine take its turn, and write what comes of it; the mailboxes written to."""
        now = self._clock.now()
        event = arrived.event
        if isinstance(event, Desk):
            event = _addressed(connection, event)
            refused = self._refused(connection, event, arrived.channel)
            if refused is not None:
                doing = self._doing(connection, event.person, now, arrived.seq)
                doing.channel = arrived.channel
                if refused.refused == Refusal.NOT_ALLOWED:
                    log().warning("desk action refused", code=refused.refused, seq=arrived.seq)
                    carry_out(_attempt(event), doing)
                carry_out(refused, doing)
                inbox.finish(connection, arrived.seq, None)
                return doing.rung
        elif not isinstance(event, Due):
            people.meet(connection, event.person, arrived.channel, now)
        before = self._sessions.of(connection, event.person)
        after, effects = self._advance(before, event, self._context(connection, event.person, now))
        doing = self._doing(connection, event.person, now, arrived.seq, before.heard_count)
        doing.channel = arrived.channel
        for effect in effects:
            carry_out(effect, doing)
        if doing.heard != after.heard_count:
            # Buttons and edits name a message by its count: it must be the same on both sides.
            raise InconsistentError("messages-miscounted")
        if after is not before:
            self._sessions.keep(connection, after, now)
            people.speak(connection, event.person, after.language)
        said = after.said_count if after.said_count > before.said_count else None
        inbox.finish(connection, arrived.seq, said)
        return doing.rung

    def _refused(self, connection: Connection, event: Desk, channel: str) -> Say | None:
        """Why this action is not even looked at: who acts may not, or there is no such order.

        Who may do what is read from the table each time, so that it holds from the next action.
        """
        if channel not in LOCAL and not _may(staff.member(connection, event.by), event):
            return _refusal(event, Refusal.NOT_ALLOWED)
        return _refusal(event, Refusal.NO_SUCH_ORDER) if event.person == _mailbox(event) else None

    def _context(self, connection: Connection, person: str, now: datetime) -> Context:
        return Context(
            now=now,
            figures=self._figures,
            next_number=numbers.next_number(connection, self._chance),
            orders=orders.orders_of(connection, person),
            contact=people.contact_of(connection, self._database.sealer, person),
        )

    def _doing(
        self, connection: Connection, person: str, now: datetime, event: int, heard: int = 0
    ) -> Doing:
        return Doing(
            connection=connection, sealer=self._database.sealer, chance=self._chance,
            design=self._design, person=person, at=now, event=event, heard=heard,
        )  # fmt: skip

    # --- when it does not go well -----------------------------------------------------

    def _catch_up(self) -> int:
        if not self._behind:
            return 0
        with self._database.reading() as connection:
            waiting = inbox.waiting(connection)
        for seq in waiting:
            self._work_off(seq)
        self._behind = False
        return len(waiting)

    def _work_off(self, seq: int) -> None:
        """Take the turn of a kept event, until it succeeds or the event is dead."""
        settled = False
        while not settled:
            try:
                with self._database.transaction() as connection:
                    arrived = inbox.arrived(connection, self._database.sealer, seq)
                    rung = self._turn(connection, arrived)
            except UnavailableError:
                raise
            except Exception as error:  # noqa: BLE001 - whatever one turn raises, others go on
                settled = self._failed(seq, error)
            else:
                self._bell.ring(rung)
                settled = True

    def _keep_failed(self, event: Event, channel: str, error: Exception) -> None:
        """The first try of an event failed and left no trace: keep the event, and try again."""
        self._behind = True
        with self._database.transaction() as connection:
            arrived = self._arrive(connection, event, channel)
            assert arrived is not None, "the same event arrived a moment ago"
            tries = inbox.count_try(connection, arrived.seq, type(error).__name__)
        log().warning("turn failed", seq=arrived.seq, kind=event.kind, tries=tries, exc_info=error)
        self._catch_up()

    def _failed(self, seq: int, error: Exception) -> bool:
        """A turn failed; True where it was the last try."""
        rung: set[str] = set()
        with self._database.transaction() as connection:
            tries = inbox.count_try(connection, seq, type(error).__name__)
            dead = tries >= TRIES
            if dead:
                inbox.bury(connection, seq)
                rung = self._tell_of_dead(connection, seq, type(error).__name__)
        log().warning("turn failed", seq=seq, tries=tries, exc_info=error)
        self._bell.ring(rung)
        return dead

    def _tell_of_dead(self, connection: Connection, seq: int, error: str) -> set[str]:
        """Tell whoever sent the event, and the desk, that nothing came of it."""
        now = self._clock.now()
        sender = inbox.sender_of(connection, seq)
        doing = self._doing(connection, sender.person, now, seq)
        if sender.kind != "due":
            self._tell_sender(connection, sender, doing, now)
        carry_out(
            Say(
                to="desk",
                lines=(
                    Line(
                        key="desk.dead",
                        values={"person": Free(text=sender.person), "code": Free(text=error)},
                    ),
                ),
            ),
            doing,
        )
        return doing.rung

    def _tell_sender(
        self, connection: Connection, sender: inbox.Sender, doing: Doing, now: datetime
    ) -> None:
        lines = (Line(key="trouble.dead"),)
        if sender.staff is not None:
            carry_out(Say(to=f"desk:{sender.staff}", lines=lines, refused="dead"), doing)
            return
        people.meet(connection, sender.person, sender.channel, now)
        try:
            session = self._sessions.of(connection, sender.person)
        except UNREADABLE:
            # The session itself is what cannot be read. It stays as it is, for somebody to look.
            carry_out(Say(lines=lines), doing)
            return
        doing.heard = session.heard_count
        carry_out(Say(lines=lines, language=session.language), doing)
        after = session.model_copy(update={"heard_count": doing.heard})
        self._sessions.keep(connection, after, now)

    def _tidy(self, now: datetime) -> None:
        """Once a day: let go of what people wrote, once it is old."""
        if self._tidied == now.date():
            return
        with self._database.transaction() as connection:
            inbox.drop_raw(connection, now - RAW_KEPT)
        self._tidied = now.date()


def _writable(event: Event) -> Event:
    """The event with a `?` where half a character was sent, which no file can hold."""
    halves = {
        name: value.encode(errors="replace").decode()
        for name, value in event
        if isinstance(value, str)
        and not value.isascii()
        and any("\ud800" <= sign <= "\udfff" for sign in value)
    }
    return event.model_copy(update=halves) if halves else event


def _mailbox(event: Desk) -> str:
    return f"desk:{event.by}"


def _addressed(connection: Connection, event: Desk) -> Desk:
    """The event with the person whose order it is about; without one, it stays with the staff."""
    number = compact(event.number)
    owner = orders.owner_of(connection, number)
    return event.model_copy(update={"number": number, "person": owner or _mailbox(event)})


def _may(member: staff.Member | None, event: Desk) -> bool:
    return member is not None and member.active and event.verb in MAY[Role(member.role)]


def _attempt(event: Desk) -> Journal:
    """What the journal keeps of an action by somebody who may not do it."""
    known = event.person != _mailbox(event)
    return Journal(
        what=Refusal.NOT_ALLOWED.value,
        by=event.by,
        number=event.number if known else None,
        after=event.verb.value,
    )


def _refusal(event: Desk, why: Refusal) -> Say:
    return Say(
        to=_mailbox(event),
        lines=(Line(key=f"refused.{why.value}"),),
        number=event.number,
        refused=why.value,
    )
