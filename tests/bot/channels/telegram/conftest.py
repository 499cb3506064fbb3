"""A workshop on Telegram: the real channel against a Bot API on this machine, over HTTP."""

from __future__ import annotations

import asyncio
import time
from collections.abc import AsyncIterator, Iterator
from pathlib import Path

import pytest
import pytest_asyncio
from bot_api import TOKEN, BotApi, Person, Running, Sent

from bot.channels.pace import Pace
from bot.channels.telegram.channel import TelegramChannel
from bot.channels.telegram.limiter import Limiter
from bot.photos import PhotoShelf
from bot.settings import load_settings
from bot.wiring import Workshop, open_workshop
from conversations.events import Desk, DeskVerb

PATIENCE = 10.0


@pytest.fixture
def other_side() -> Iterator[Running]:
    """The Bot API, listening."""
    running = Running(BotApi())
    yield running
    running.stop()


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Workshop]:
    """A workshop with a fresh database."""
    settings = load_settings(database=tmp_path / "data" / "w.db", key_file=tmp_path / "key")
    with open_workshop(settings) as workshop:
        yield workshop


class World:
    """People on one side, the workshop on the other."""

    def __init__(self, other_side: Running, shop: Workshop) -> None:
        self.api = other_side.api
        self.url = other_side.url
        self.shop = shop
        self.most = 1000
        """[messages a minute] nobody is too fast, except where a test is about that."""
        self.stop = asyncio.Event()
        self._running: asyncio.Task[None] | None = None
        self._seen: dict[int, int] = {}

    def start(self, per_chat: float = 0.0) -> None:
        """Start the channel."""
        shop = self.shop
        channel = TelegramChannel(
            TOKEN, self.url, database=shop.database, service=shop.service, outbox=shop.outbox,
            bell=shop.bell, presenter=shop.presenter, renderer=shop.renderer,
            shelf=PhotoShelf(shop.settings.photo_folder), clock=shop.clock, long_poll=1,
            limiter=Limiter(time.monotonic, per_chat=per_chat), pace=Pace(most=self.most),
        )  # fmt: skip
        self._running = asyncio.create_task(channel.run(self.stop))

    async def end(self) -> None:
        """Stop the channel, if it runs."""
        self.stop.set()
        if self._running is not None:
            await asyncio.wait_for(self._running, PATIENCE)

    async def reply(self, who: Person) -> Sent:
        """The next message that reaches this person."""
        nth = self._seen.get(who.user, 0)
        await self.until(lambda: len(self.api.to(who)) > nth)
        self._seen[who.user] = nth + 1
        return self.api.to(who)[nth]

    async def last(self, who: Person) -> Sent:
        """The newest message, once nothing more comes."""
        await self.until(lambda: not self.shop.outbox.waiting(channel="telegram"))
        self._seen[who.user] = len(self.api.to(who))
        return self.api.to(who)[-1]

    async def until(self, holds: object) -> None:
        """Wait until this holds; fails after a while."""
        assert callable(holds)
        end = time.monotonic() + PATIENCE
        while not holds():
            assert time.monotonic() < end, "waited in vain"
            await asyncio.sleep(0.01)

    async def says(self, who: Person, *texts: str) -> Sent:
        """Type one thing after the other, each after the reply to the one before."""
        sent = None
        for text in texts:
            self.api.says(who, text)
            sent = await self.reply(who)
        assert sent is not None
        return sent

    async def taps(self, who: Person, sent: Sent, label: str) -> Sent:
        """Tap a button; the reply."""
        self.api.taps(who, sent, label)
        return await self.reply(who)

    async def to_side_to_side(self, who: Person) -> Sent:
        """From hello to the first length."""
        sent = await self.taps(who, await self.says(who, "/start"), "English")
        sent = await self.taps(who, sent, "Only the queen")
        return await self.taps(who, sent, "I don't know")

    async def to_read_back(self, who: Person) -> Sent:
        """From hello to the read-back of a frame that fits its hive."""
        sent = await self.to_side_to_side(who)
        sent = await self.says(who, "360", "260", "391", "10 mm", "35", "27", "375", "393", "253")
        sent = await self.says(who, "17 mm")
        sent = await self.taps(who, sent, "Another box")
        return await self.says(who, "10", "Anna, anna@example.org")

    def desk(self, verb: str, number: str, **more: object) -> None:
        """A staff member acts on an order."""
        event = Desk.model_validate(
            {
                "id": f"desk-{time.monotonic_ns()}", "person": "?", "at": self.shop.clock.now(),
                "by": "maria", "verb": DeskVerb(verb), "number": number, **more,
            }
        )  # fmt: skip
        self.shop.service.receive(event, "talk")


@pytest_asyncio.fixture
async def world(other_side: Running, shop: Workshop) -> AsyncIterator[World]:
    """The channel, running."""
    made = World(other_side, shop)
    made.start()
    yield made
    await made.end()


@pytest_asyncio.fixture
async def idle(other_side: Running, shop: Workshop) -> AsyncIterator[World]:
    """The channel, not started yet."""
    made = World(other_side, shop)
    yield made
    await made.end()


@pytest.fixture
def anna() -> Person:
    """A beekeeper with an English phone."""
    return Person(77)
