"""Telegram from start to end: asks for updates, hands on what happened, sends what is said."""

from __future__ import annotations

import asyncio
import contextlib
import logging
import os
import time
from collections.abc import AsyncIterator, Mapping, Sequence
from typing import Any

from telegram import Bot
from telegram.error import InvalidToken, TelegramError
from telegram.request import HTTPXRequest

from bot.bell import Bell
from bot.channels.pace import Pace
from bot.channels.photo_intake import PHOTOS_PER_ORDER, take_photo
from bot.channels.telegram.inbound import (
    Aside,
    Directory,
    Group,
    Happened,
    Incoming,
    Left,
    Picture,
    Unknown,
    incoming,
)
from bot.channels.telegram.limiter import Limiter
from bot.channels.telegram.outbound import Courier
from bot.channels.telegram.pacing import Pacing
from bot.channels.telegram.poll import CHANNEL, LONG, Poller
from bot.channels.telegram.profile import introduce
from bot.channels.telegram.refresh import Refresher
from bot.channels.telegram.staff_door import StaffDoor
from bot.logs import log
from bot.outbox import Outbox, Sender
from bot.photos import PhotoError, PhotoShelf
from bot.ports import Clock, Renderer
from bot.presenter import Presenter
from bot.service import Service
from bot.storage import inbox, outbox, people, telling
from bot.storage import telegram as kept
from bot.storage.database import Database
from bot.storage.errors import UnavailableError
from conversations.events import Event, Unusable
from conversations.locale import Catalogue, catalogue, languages

__all__ = ["TelegramChannel"]

SOON = 3.0
"""[s] updates wait for one word to somebody, no longer."""
RETRY = 5.0
"""[s] between two tries to reach the other side at the start."""
PERSON = "tg-"
_NOISY = ("httpx", "httpcore", "telegram")


class TelegramChannel:
    """One bot and the conversations on it."""

    def __init__(
        self, token: str, api: str, *, database: Database, service: Service, outbox: Outbox,
        bell: Bell, presenter: Presenter, renderer: Renderer, shelf: PhotoShelf, clock: Clock,
        limiter: Limiter | None = None, pace: Pace | None = None,
        long_poll: int = LONG,
    ) -> None:  # fmt: skip
        # The library's own switch to the type it will have for durations.
        os.environ.setdefault("PTB_TIMEDELTA", "true")
        # Their lines carry addresses with the token in them.
        for name in _NOISY:
            logging.getLogger(name).setLevel(logging.CRITICAL)
        self._requests = (
            HTTPXRequest(connection_pool_size=16, read_timeout=20, write_timeout=20),
            HTTPXRequest(connection_pool_size=2, connect_timeout=10),
        )
        self._bot = Bot(
            token,
            base_url=f"{api.rstrip('/')}/bot",
            base_file_url=f"{api.rstrip('/')}/file/bot",
            request=self._requests[0],
            get_updates_request=self._requests[1],
        )
        self._database = database
        self._service = service
        self._bell = bell
        self._shelf = shelf
        self._clock = clock
        limiter = limiter or Limiter(time.monotonic)
        self._courier = Courier(self._bot, database, presenter, renderer, limiter)
        self._refresher = Refresher(self._bot, database, limiter)
        self._sender = Sender(outbox, self._courier.deliver, channel=CHANNEL)
        self._poller = Poller(self._bot, database, clock, self.take, long=long_poll)
        self._directory = Directory(
            person=self._person, said=self._said, heard=self._heard, choice=self._choice
        )
        self._staff = StaffDoor(self._courier, database, clock, self._aside)
        self._pacing = Pacing(pace or Pace())
        self._asides: set[asyncio.Task[None]] = set()
        self._refused_groups: dict[int, float] = {}

    async def run(self, stop: asyncio.Event) -> None:
        """Hold the conversations until `stop` is set."""
        try:
            if await self._reached(stop):
                self._aside(introduce(self._bot))
                async with asyncio.TaskGroup() as tasks:
                    tasks.create_task(self._poller.run(stop))
                    tasks.create_task(self._sender.run(self._bell, stop))
                    tasks.create_task(self._refresher.run(self._bell, stop))
        finally:
            for task in list(self._asides):
                task.cancel()
            await asyncio.gather(*self._asides, return_exceptions=True)
            for request in self._requests:
                await request.shutdown()

    async def _reached(self, stop: asyncio.Event) -> bool:
        """Whether the other side knows us; asked again and again until it answers."""
        while not stop.is_set():
            try:
                await self._bot.initialize()
            except InvalidToken:
                self._trouble("token-refused")
            except TelegramError as error:
                self._trouble(f"network-{type(error).__name__}")
            else:
                return True
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(stop.wait(), RETRY)
        return False

    def _trouble(self, code: str) -> None:
        log().warning("telegram not reached", code=code)
        with self._database.transaction() as connection:
            kept.note_poll(connection, CHANNEL, self._clock.now(), code)

    # --- what comes in ----------------------------------------------------------------

    async def take(self, updates: Sequence[Mapping[str, Any]]) -> None:
        """Keep these updates; after that they may be confirmed."""
        events = [event for update in updates if (event := await self._event_of(update))]
        try:
            if len(events) == 1:
                self._service.receive(events[0], CHANNEL)
            elif events:
                self._service.receive_many(events, CHANNEL)
        except UnavailableError:
            raise
        except Exception as error:  # noqa: BLE001 - one of them can't be kept, the others are
            _left_aside(f"unkept-{type(error).__name__}")
            for event in events if len(events) > 1 else ():
                self._receive_alone(event)

    def _receive_alone(self, event: Event) -> None:
        try:
            self._service.receive(event, CHANNEL)
        except UnavailableError:
            raise
        except Exception as error:  # noqa: BLE001 - as above
            _left_aside(f"unkept-{type(error).__name__}")

    async def _event_of(self, update: Mapping[str, Any]) -> Event | None:
        """What is to be kept of this update; whatever is wrong with it stays its own affair."""
        try:
            return await self._understood(incoming(update, self._directory))
        except UnavailableError:
            raise
        except Exception as error:  # noqa: BLE001 - whatever is wrong with one, the next comes
            _left_aside(f"unusable-{type(error).__name__}")
            return None

    async def _understood(self, came: Incoming) -> Event | None:
        match came:
            case Happened():
                self._know(came.event.person, came.chat)
                if came.tapped is not None:
                    self._aside(self._acknowledge(came.tapped))
                if not self._in_pace(came):
                    return None
                event = self._staff.event_of(came)
                told = came.why and event and await self._said_why(came.chat, event, came.why)
                return None if told else event
            case Picture():
                if self._staff.is_staff(came.event.person):
                    self._staff.cannot_use(came.chat, came.event.person)
                    return None
                if not self._in_pace(came):
                    return None
                self._know(came.event.person, came.chat)
                return await self._fetched(came)
            case Unknown(chat, person):
                if self._staff.is_staff(person):
                    self._staff.cannot_use(chat, person, edited=True)
            case Group():
                self._aside(self._refuse(came))
            case Left(person):
                self._lost(person)
            case Aside(why):
                _left_aside(why)
        return None

    def _lost(self, person: str) -> None:
        with self._database.transaction() as connection:
            event = inbox.newest_of(connection, person)
            if event is None:  # they never got so far as to say a word
                return
            rung = telling.tell_unreachable(
                connection, self._database.sealer, person, at=self._clock.now(), event=event
            )
        self._bell.ring(rung)

    def _know(self, person: str, chat: int) -> None:
        with self._database.reading() as connection:
            known = kept.chat_of(connection, self._database.sealer, person)
        if known is None:
            with self._database.transaction() as connection:
                kept.keep_chat(connection, self._database.sealer, person, chat)

    def _in_pace(self, came: Happened | Picture) -> bool:
        """Whether it is taken; who writes faster than anybody can is told so, once."""
        event = came.event
        if self._staff.is_staff(event.person) or self._pacing.takes(event, self._clock.now()):
            return True
        if self._pacing.to_be_told(event.person):
            log().warning("slowed down")
            text = self._texts(event).text("telegram.slow").format(most=self._pacing.most)
            self._aside(self._courier.say(came.chat, text))
        return False

    def _texts(self, event: Event) -> Catalogue:
        """The texts of the language this person reads, or their telephone speaks."""
        with self._database.reading() as connection:
            if people.channel_of(connection, event.person) is not None:
                return catalogue(people.language_of(connection, event.person))
        return catalogue(_spoken(event.language_hint))

    async def _fetched(self, picture: Picture) -> Event | None:
        """The event with the picture put away; something unusable where it did not arrive.

        None where it can't be kept, which was said with what would do.
        """
        event = picture.event
        try:
            file = await self._bot.get_file(picture.file)
            raw = bytes(await file.download_as_bytearray())
            taking = take_photo(
                self._database, self._shelf, event.person, _chunks(raw), self._clock.now()
            )
            return event.model_copy(update={"photo": await taking})
        except PhotoError as error:
            if await self._said_why(picture.chat, event, error.code):
                return None
        except (TelegramError, OSError) as error:
            log().warning("photo not fetched", code=type(error).__name__)
        return Unusable(
            id=event.id, person=event.person, at=event.at, what="photo",
            language_hint=event.language_hint,
        )  # fmt: skip

    async def _said_why(self, chat: int, event: Event, code: str) -> bool:
        """Say why a photo can't be kept and what would do; whether it came through."""
        log().info("photo not kept", code=code)
        why = self._texts(event).text(f"web.trouble.photo.{code}")
        return await self._courier.told(chat, why.format(most=PHOTOS_PER_ORDER), patience=SOON)

    # --- beside the conversation ------------------------------------------------------

    def _aside(self, doing: Any) -> None:
        """Do this beside all else; whether it works out matters to nobody."""
        task = asyncio.ensure_future(doing)
        self._asides.add(task)
        task.add_done_callback(self._asides.discard)

    async def _acknowledge(self, tapped: str) -> None:
        with contextlib.suppress(TelegramError):  # a late acknowledgement is refused; never mind
            await self._bot.answer_callback_query(tapped)

    async def _refuse(self, group: Group) -> None:
        """Say in a group that orders are personal; at most once an hour."""
        now = time.monotonic()
        if now - self._refused_groups.get(group.chat, -3600.0) < 3600:
            return
        self._refused_groups[group.chat] = now
        texts = catalogue(_spoken(group.language))
        await self._courier.say(group.chat, texts.text("telegram.group"))

    # --- looking things up ------------------------------------------------------------

    def _person(self, user: int) -> str:
        return f"{PERSON}{self._database.sealer.digest(f'telegram {user}')[:16]}"

    def _said(self, event: str) -> int | None:
        with self._database.reading() as connection:
            return inbox.k_of_event(connection, CHANNEL, event)

    def _heard(self, person: str, ref: str) -> int | None:
        with self._database.reading() as connection:
            return outbox.k_of_ref(connection, person, ref)

    def _choice(self, person: str, k: int, place: int) -> str | None:
        with self._database.reading() as connection:
            letter = outbox.letter_of(connection, self._database.sealer, person, k)
        if letter is None or place >= len(letter.say.choices):
            return None
        return letter.say.choices[place].id


def _spoken(hint: str | None) -> str:
    """The language a telephone speaks, if we do."""
    language = (hint or "").split("-")[0]
    return language if language in languages() else "en"


def _left_aside(why: str) -> None:
    """Only the kind of what was wrong is written down, nothing of what was sent."""
    log().warning("update left aside", code=why)


async def _chunks(raw: bytes) -> AsyncIterator[bytes]:
    yield raw
