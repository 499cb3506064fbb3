"""Asking for updates: nothing is confirmed before it was taken."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping, Sequence
from typing import Any

import pytest
from bot_api import TOKEN, Person, Running
from telegram import Bot

from bot.channels.telegram.poll import CHANNEL, Poller
from bot.storage import telegram as kept
from bot.storage.errors import UnavailableError
from bot.wiring import Workshop


class Taking:
    """Takes updates, or cannot for a while."""

    def __init__(self, failures: int = 0) -> None:
        self.taken: list[int] = []
        self.failures = failures

    async def __call__(self, updates: Sequence[Mapping[str, Any]]) -> None:
        if self.failures:
            self.failures -= 1
            raise UnavailableError("SQLITE_FULL")
        self.taken += [update["update_id"] for update in updates]


async def polled(other: Running, shop: Workshop, taking: Taking, seconds: float) -> None:
    """Poll for so long."""
    async with Bot(TOKEN, base_url=f"{other.url}/bot") as bot:
        stop = asyncio.Event()
        poller = Poller(bot, shop.database, shop.clock, taking, long=1)
        running = asyncio.create_task(poller.run(stop))
        await asyncio.sleep(seconds)
        stop.set()
        await running


async def test_updates_are_confirmed_after_they_were_taken(
    other_side: Running, shop: Workshop
) -> None:
    """And at the end, so that a restart does not get them again."""
    anna = Person(7)
    ids = [other_side.api.says(anna, text)["update_id"] for text in "abc"]
    taking = Taking()
    await polled(other_side, shop, taking, 0.3)
    assert taking.taken == ids
    assert other_side.api.confirmed == ids[-1] + 1


async def test_what_could_not_be_taken_comes_again(other_side: Running, shop: Workshop) -> None:
    """A full disk confirms nothing; the trouble is noted and gone afterwards."""
    update = other_side.api.says(Person(7), "a")["update_id"]
    taking = Taking(failures=1)
    await polled(other_side, shop, taking, 0.3)
    assert (taking.taken, other_side.api.confirmed) == ([], 0)
    with shop.database.reading() as connection:
        last = kept.polled(connection, CHANNEL)
    assert last is not None
    assert last.trouble == "database-SQLITE_FULL"
    await polled(other_side, shop, taking, 0.3)
    assert taking.taken == [update]


@pytest.mark.parametrize(("conflict", "code"), [(True, "another-poller"), (False, None)])
async def test_a_second_poller_is_noted(
    other_side: Running, shop: Workshop, conflict: bool, code: str | None
) -> None:
    """Somebody else polls with this token: said where `/health` and `doctor` see it."""
    other_side.api.conflict = conflict
    await polled(other_side, shop, Taking(), 0.3)
    with shop.database.reading() as connection:
        last = kept.polled(connection, CHANNEL)
    assert last is not None
    assert last.trouble == code


async def test_when_a_second_poller_is_gone_it_is_known_with_the_next_question(
    other_side: Running, shop: Workshop
) -> None:
    """The first question after trouble does not wait for news."""
    other_side.api.conflict = True
    async with Bot(TOKEN, base_url=f"{other_side.url}/bot") as bot:
        stop = asyncio.Event()
        poller = Poller(bot, shop.database, shop.clock, Taking(), long=25)
        running = asyncio.create_task(poller.run(stop))
        await asyncio.sleep(0.3)
        other_side.api.conflict = False
        began = asyncio.get_running_loop().time()

        def trouble() -> str | None:
            with shop.database.reading() as connection:
                last = kept.polled(connection, CHANNEL)
            return last.trouble if last else "none yet"

        while trouble() is not None:
            assert asyncio.get_running_loop().time() - began < 5
            await asyncio.sleep(0.02)
        stop.set()
        await running
