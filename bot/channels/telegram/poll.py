"""Asks for updates for as long as we run, and keeps them before the next question confirms them.

What was kept and not confirmed comes again after a kill; it is known by its id. Whatever is in
the way (no network, a second poller, a refused token) is noted where `/health` and `doctor` see
it, and tried again with growing pauses.
"""

from __future__ import annotations

import asyncio
import warnings
from collections.abc import Awaitable, Callable, Mapping, Sequence
from typing import Any, TypeAlias

from telegram import Bot
from telegram.error import (
    Conflict,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)
from telegram.warnings import PTBUserWarning

from bot.channels.telegram.inbound import KINDS
from bot.channels.telegram.outbound import outcome
from bot.logs import log
from bot.ports import Clock
from bot.storage import telegram as kept
from bot.storage.database import Database
from bot.storage.errors import UnavailableError

__all__ = ["CHANNEL", "Poller", "Take"]

CHANNEL = "telegram"
AT_ONCE = 100
LONG = 25
"""[s] the other side holds the question while there is nothing."""
LONGEST_PAUSE = 60.0
NOTE_EVERY = 30.0
"""[s] between two notes that all is well."""

Take: TypeAlias = Callable[[Sequence[Mapping[str, Any]]], Awaitable[None]]


class Poller:
    """Asks one bot for updates and hands them on; `take` returns once they are kept."""

    def __init__(
        self, bot: Bot, database: Database, clock: Clock, take: Take, *, long: int = LONG
    ) -> None:
        self._bot = bot
        self._database = database
        self._clock = clock
        self._take = take
        self._long = long
        self._pause = 0.0
        self._offset: int | None = None
        self._noted: tuple[float, str | None] | None = None

    async def run(self, stop: asyncio.Event) -> None:
        """Ask until `stop` is set."""
        warnings.filterwarnings(
            "ignore", message="Please use 'Bot.getUpdates'", category=PTBUserWarning
        )
        while not stop.is_set():
            trouble = await self._ask_unless(stop)
            self._note(trouble)
            self._pause = min(LONGEST_PAUSE, max(1.0, 2 * self._pause)) if trouble else 0.0
            if trouble and not stop.is_set():
                await _first(stop.wait(), asyncio.sleep(self._pause))
        await self._confirm()

    async def _ask_unless(self, stop: asyncio.Event) -> str | None:
        """One question, given up when we are to stop; the code of what was in the way."""
        asking = asyncio.ensure_future(self._ask())
        await _first(asyncio.shield(asking), stop.wait())
        if not asking.done():
            asking.cancel()
            await asyncio.gather(asking, return_exceptions=True)
            return None
        return asking.result()

    async def _ask(self) -> str | None:
        try:
            # After trouble the answer comes at once, so that it is known to be over.
            troubled = self._noted is not None and self._noted[1] is not None
            updates = await self._fetch(0 if troubled else self._long)
            if updates:
                await self._take(updates)
                self._offset = updates[-1]["update_id"] + 1
        except Conflict:
            return "another-poller"
        except InvalidToken:
            return "token-refused"
        except Forbidden:
            return "forbidden"
        except RetryAfter as error:
            pause = outcome(error).pause
            self._pause = pause.total_seconds() / 2 if pause else 0.0
            return "too-fast"
        except NetworkError as error:
            return f"network-{type(error.__cause__ or error).__name__}"
        except TelegramError as error:
            return f"refused-{type(error).__name__}"
        except UnavailableError as error:
            return f"database-{error.code}"
        except Exception as error:  # noqa: BLE001 - what is not understood is asked for again
            log().error("polling failed", exc_info=error)
            return f"ours-{type(error).__name__}"
        return None

    async def _fetch(self, long: int) -> list[dict[str, Any]]:
        asked: dict[str, Any] = {
            "timeout": long,
            "limit": AT_ONCE,
            "allowed_updates": list(KINDS),
        }
        if self._offset is not None:
            asked["offset"] = self._offset
        updates: list[dict[str, Any]] = await self._bot.do_api_request(
            "getUpdates", api_kwargs=asked, read_timeout=long + 5
        )
        return updates

    async def _confirm(self) -> None:
        """Tell the other side what arrived, so that it does not come again; best effort."""
        if self._offset is None:
            return
        try:
            await asyncio.wait_for(self._fetch(0), timeout=2)
        except (TelegramError, TimeoutError) as error:
            log().info("updates not confirmed", code=type(error).__name__)

    def _note(self, trouble: str | None) -> None:
        """Write down how it goes: every change, and now and then that all is well."""
        now = asyncio.get_running_loop().time()
        if self._noted and self._noted[1] == trouble and now - self._noted[0] < NOTE_EVERY:
            return
        if trouble:
            log().warning("polling", code=trouble)
        try:
            with self._database.transaction() as connection:
                kept.note_poll(connection, CHANNEL, self._clock.now(), trouble)
        except UnavailableError as error:
            log().error("database unavailable", code=error.code)
        self._noted = (now, trouble)


async def _first(*waits: Awaitable[Any]) -> None:
    """Wait until one of these is done; the others are given up."""
    tasks = [asyncio.ensure_future(one) for one in waits]
    try:
        await asyncio.wait(tasks, return_when=asyncio.FIRST_COMPLETED)
    finally:
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)
