"""Cards that staff were sent follow their order."""

from __future__ import annotations

import asyncio
from typing import Any

from bot_api import TOKEN, Person
from telegram import Bot

from bot.channels.telegram.limiter import Limiter
from bot.channels.telegram.refresh import Refresher
from bot.desk.staff import invite
from bot.storage import staff, staff_chats
from conversations.review import Role

MARIA = Person(501, name="Maria")


async def refreshed(world: Any) -> int:
    """Let a refresher take one step; how many cards are still followed afterwards."""
    async with Bot(TOKEN, base_url=f"{world.url}/bot") as bot:
        limiter = Limiter(asyncio.get_running_loop().time, per_chat=0)
        await Refresher(bot, world.shop.database, limiter).step(asyncio.Event())
    with world.shop.database.reading() as connection:
        assert staff_chats.outdated(connection) == []
        return int(connection.execute("SELECT count(*) FROM staff_cards").fetchone()[0])


async def carded(world: Any, anna: Person) -> tuple[str, Any]:
    """An order and the card of it that Maria has."""
    code = invite(world.shop.database, world.shop.clock.now(), "maria", Role.DESK)
    await world.says(MARIA, f"/start {code}")
    await world.to_read_back(anna)
    await world.taps(anna, await world.last(anna), "Hand in")
    card = await world.reply(MARIA)
    with world.shop.database.reading() as connection:
        number = connection.execute("SELECT number FROM orders").fetchone()[0]
    await world.until(lambda: not world.shop.outbox.waiting(channel="telegram"))
    world.stop.set()
    await world.end()
    return str(number), card


async def test_a_card_offers_what_can_be_done_now(world: Any, anna: Person) -> None:
    """After the order went on elsewhere, and nothing once who has it left."""
    number, card = await carded(world, anna)
    world.desk("take", number)
    assert await refreshed(world) == 1
    labels = [label for label, _ in world.api.now(card).buttons]
    assert "Take it on" not in labels
    assert "Clear version 1" in labels
    with world.shop.database.transaction() as connection:
        assert staff.remove(connection, "maria", world.shop.clock.now())
    assert await refreshed(world) == 0
    assert world.api.now(card).buttons == []


async def test_a_card_that_is_gone_is_followed_no_more(world: Any, anna: Person) -> None:
    """Somebody deleted the message."""
    number, _ = await carded(world, anna)
    world.api.sent.clear()
    world.desk("take", number)
    assert await refreshed(world) == 0


async def test_a_card_that_is_as_it_should_be_is_still_followed(world: Any, anna: Person) -> None:
    """The other side says that nothing changed."""
    number, card = await carded(world, anna)
    world.desk("take", number)
    assert await refreshed(world) == 1
    with world.shop.database.transaction() as connection:
        connection.execute("UPDATE staff_cards SET stage = 'handed-in'")
    assert await refreshed(world) == 1
    world.desk("clear", number)
    assert await refreshed(world) == 1
    assert "cleared" in world.api.now(card).text
