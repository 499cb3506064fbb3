"""A bell for every mailbox."""

from __future__ import annotations

import asyncio
import threading

import pytest

from bot.bell import Bell


async def test_nothing_is_missed_between_looking_and_waiting() -> None:
    """A ring that came before the wait ends the wait at once."""
    bell = Bell()
    with bell.listen("anna") as ear:
        bell.ring(["anna"])
        await asyncio.wait_for(ear.rung(), 1)
        with pytest.raises(TimeoutError):
            await asyncio.wait_for(ear.rung(), 0.01)


async def test_one_mailbox_does_not_wake_another() -> None:
    """Ola sleeps while Anna is rung; who listens to all is woken."""
    bell = Bell()
    with bell.listen("ola") as ola, bell.listen() as everybody:
        bell.ring(["anna"])
        await asyncio.wait_for(everybody.rung(), 1)
        with pytest.raises(TimeoutError):
            await asyncio.wait_for(ola.rung(), 0.01)


async def test_it_may_be_rung_from_another_thread() -> None:
    """The waiting loop wakes although the ring came from outside of it."""
    bell = Bell()
    with bell.listen("anna") as ear:
        thread = threading.Thread(target=bell.ring, args=[["anna"]])
        thread.start()
        await asyncio.wait_for(ear.rung(), 1)
        thread.join()
    assert bell._ears == {}


async def test_who_left_is_forgotten() -> None:
    """A bell that is rung for nobody keeps nothing."""
    bell = Bell()
    with bell.listen("anna"), bell.listen("anna"):
        assert len(bell._ears["anna"]) == 2
    bell.ring(["anna"])
    assert bell._ears == {}


def test_a_loop_that_has_ended_is_not_rung() -> None:
    """Ringing after the listener's loop was closed does nothing."""
    bell = Bell()

    async def listen_for_ever() -> None:
        context = bell.listen("anna")
        context.__enter__()
        left_open.append(context)

    left_open: list[object] = []
    asyncio.run(listen_for_ever())
    bell.ring(["anna"])
    assert len(bell._ears["anna"]) == 1
