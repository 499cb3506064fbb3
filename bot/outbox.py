"""What waits to be sent: read in order for each mailbox, settled after it went out.

Nothing is marked as sent before it is out, so a message may go out twice after a crash, but
never not at all. What is known to have failed before it left is tried again as often as it
takes; what went out without an answer may have arrived, and is sent once more at most.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import timedelta
from enum import StrEnum
from sqlite3 import Connection
from typing import TypeAlias

from bot.bell import Bell
from bot.logs import log
from bot.ports import Clock
from bot.storage import inbox, outbox, telling
from bot.storage.database import Database
from bot.storage.errors import UnavailableError
from bot.storage.inbox import Heard
from bot.storage.outbox import Letter

__all__ = ["Deliver", "Delivery", "Heard", "Letter", "Outbox", "Outcome", "Sender"]

RESENDS = 1
LONGEST_PAUSE = timedelta(seconds=60)
BATCH = 50
TOGETHER = 0.02
"""[s] messages that went out within so long are marked in one commit."""


class Outcome(StrEnum):
    """What became of a message that a channel tried to send."""

    SENT = "sent"
    NOT_SENT = "not-sent"
    """It never left: no connection, or the other side said "later" (`Delivery.pause`)."""
    NO_ANSWER = "no-answer"
    """It left; whether it arrived is not known."""
    REFUSED = "refused"
    """This message will never be taken."""
    GONE = "gone"
    """Nothing reaches this person any more until they write again."""


@dataclass(frozen=True, slots=True)
class Delivery:
    """The outcome; `pause` as the other side asked for it; `code` says why it was refused."""

    outcome: Outcome
    pause: timedelta | None = None
    code: str = ""
    ref: str | None = None
    """What the channel calls the message that was sent."""


Deliver: TypeAlias = Callable[[Letter], Awaitable[Delivery]]


@dataclass(slots=True)
class Outbox:
    """The messages that were said, and which of them are out."""

    database: Database
    clock: Clock
    bell: Bell | None = None
    _pauses: dict[int, int] = field(default_factory=dict, init=False)
    """How often each message has not left by now."""

    def waiting(self, limit: int = BATCH, *, channel: str | None = None) -> list[Letter]:
        """The oldest unsent message of each mailbox of this channel (None: of all), if it may
        go out now."""
        with self.database.reading() as connection:
            return outbox.first_waiting(
                connection, self.database.sealer, limit, channel=channel, now=self.clock.now()
            )

    def backlog(self, limit: int = 1000) -> list[Letter]:
        """All unsent messages in the order in which they were said."""
        with self.database.reading() as connection:
            return outbox.all_waiting(connection, self.database.sealer, limit)

    def since(self, to: str, seq: int = 0) -> list[Letter]:
        """All messages to this mailbox after the row `seq`, sent or not, oldest first."""
        with self.database.reading() as connection:
            return outbox.letters_to(connection, self.database.sealer, to, seq)

    def transcript(self, person: str) -> list[Heard | Letter]:
        """The conversation: what the person sent and what was said to them, in order.

        What was said in answer to a message follows it, whatever came in between.
        """
        with self.database.reading() as connection:
            heard = inbox.heard_from(connection, self.database.sealer, person)
            letters = outbox.letters_to(connection, self.database.sealer, person, 0)
        entries: list[tuple[int, int, Heard | Letter]] = [
            *((one.seq, 0, one) for one in heard),
            *((letter.event, letter.seq, letter) for letter in letters),
        ]
        return [entry for _, _, entry in sorted(entries, key=lambda one: one[:2])]

    def mark_sent(self, seqs: Iterable[int]) -> None:
        """These messages are out. Raises `UnavailableError`."""
        with self.database.transaction() as connection:
            outbox.mark_sent(connection, seqs, self.clock.now())

    def settle(self, deliveries: Mapping[int, tuple[Letter, Delivery]]) -> None:
        """Write down what became of these messages, in one go. Raises `UnavailableError`."""
        with self.database.transaction() as connection:
            for letter, delivery in deliveries.values():
                self._settle(connection, letter, delivery)

    def _settle(self, connection: Connection, letter: Letter, delivery: Delivery) -> None:
        match delivery.outcome:
            case Outcome.SENT:
                outbox.mark_sent(connection, [letter.seq], self.clock.now())
                if delivery.ref is not None:
                    outbox.keep_ref(connection, letter.seq, delivery.ref)
            case Outcome.NOT_SENT:
                pause = delivery.pause or self._longer_pause(letter.seq)
                outbox.delay(connection, letter.seq, self.clock.now() + pause)
                return
            case Outcome.NO_ANSWER if letter.attempts < RESENDS:
                outbox.try_again(connection, letter.seq)
                return
            case Outcome.GONE:
                outbox.fail_all(connection, letter.to, delivery.outcome)
                # The desk hears of it: an order of theirs waits for a telephone.
                rung = telling.tell_unreachable(
                    connection, self.database.sealer, letter.to,
                    at=self.clock.now(), event=letter.event, number=letter.say.number,
                )  # fmt: skip
                if self.bell is not None:
                    self.bell.ring(rung)
            case Outcome.NO_ANSWER | Outcome.REFUSED:
                outbox.fail(connection, letter.seq, delivery.code or delivery.outcome)
        self._pauses.pop(letter.seq, None)

    def _longer_pause(self, seq: int) -> timedelta:
        count = self._pauses.get(seq, 0)
        self._pauses[seq] = count + 1
        return min(timedelta(seconds=2**count), LONGEST_PAUSE)


class Sender:
    """Sends what waits for one channel.

    What was sent but could not be marked is remembered, and nothing more is sent until it is
    marked: a full disk beside a working network would otherwise send the same message for ever.
    """

    def __init__(self, outbox: Outbox, deliver: Deliver, *, channel: str | None = None) -> None:
        self._outbox = outbox
        self._deliver = deliver
        self._channel = channel
        self._unsettled: dict[int, tuple[Letter, Delivery]] = {}

    async def step(self) -> int:
        """Send at most one message to each mailbox; how many. Raises `UnavailableError`."""
        self._settle()
        letters = self._outbox.waiting(channel=self._channel)
        clock = asyncio.get_running_loop().time
        since = clock()
        for letter in letters:
            self._unsettled[letter.seq] = (letter, await self._delivered(letter))
            if clock() - since > TOGETHER:
                # What is out is marked soon: one slow message must not have the others sent
                # again after a kill.
                self._settle()
                since = clock()
        self._settle()
        return len(letters)

    def _settle(self) -> None:
        if self._unsettled:
            self._outbox.settle(self._unsettled)
            self._unsettled.clear()

    async def _delivered(self, letter: Letter) -> Delivery:
        try:
            return await self._deliver(letter)
        except Exception as error:  # noqa: BLE001 - one message must not hold up the others
            log().error("message not sendable", seq=letter.seq, exc_info=error)
            return Delivery(Outcome.REFUSED, code=type(error).__name__)

    async def run(self, bell: Bell, stop: asyncio.Event, *, pause: float = 1.0) -> None:
        """Send until `stop` is set: at once when the bell rings, and every `pause` seconds."""
        with bell.listen() as ear:
            while not stop.is_set():
                try:
                    sent = await self.step()
                except UnavailableError as trouble:
                    log().error("outbox unavailable", code=trouble.code)
                    sent = 0
                if sent == 0:
                    await _first_of(ear.rung(), stop.wait(), pause)


async def _first_of(one: Awaitable[object], other: Awaitable[object], seconds: float) -> None:
    tasks = [asyncio.ensure_future(one), asyncio.ensure_future(other)]
    try:
        await asyncio.wait(tasks, timeout=seconds, return_when=asyncio.FIRST_COMPLETED)
    finally:
        for task in tasks:
            task.cancel()
            with suppress(asyncio.CancelledError):
                await task
