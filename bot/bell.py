"""A bell for every mailbox: rung when something new stands in the outbox.

Who waits for news (a page that shows replies as they come, a sender) listens first, then reads,
then waits: nothing that comes in between is missed, and nobody has to look again and again.
The bell may be rung from any thread.
"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

__all__ = ["Bell", "Ear"]


class Ear:
    """Hears one mailbox, or all, from one event loop."""

    def __init__(self, loop: asyncio.AbstractEventLoop) -> None:
        self._loop = loop
        self._heard = asyncio.Event()

    def _ring(self) -> None:
        if not self._loop.is_closed():
            self._loop.call_soon_threadsafe(self._heard.set)

    async def rung(self) -> None:
        """Wait until the bell has been rung since this was last asked."""
        await self._heard.wait()
        self._heard.clear()


class Bell:
    """Wakes those who listen for a mailbox: a person, `desk`, or `desk:NAME`."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._ears: dict[str | None, set[Ear]] = {}

    @contextmanager
    def listen(self, to: str | None = None) -> Iterator[Ear]:
        """Hear the mailbox `to`, or all of them, while the context is open."""
        ear = Ear(asyncio.get_running_loop())
        with self._lock:
            self._ears.setdefault(to, set()).add(ear)
        try:
            yield ear
        finally:
            with self._lock:
                self._ears[to].discard(ear)
                if not self._ears[to]:
                    del self._ears[to]

    def ring(self, to: Iterable[str]) -> None:
        """Wake all who listen for one of these mailboxes."""
        mailboxes = set(to)
        if not mailboxes:
            return
        with self._lock:
            ears = {ear for box in (*mailboxes, None) for ear in self._ears.get(box, ())}
        for ear in ears:
            ear._ring()
