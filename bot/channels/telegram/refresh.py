"""Cards that staff were sent follow their order: what no longer can be done is not offered.

The newest card of each order is written anew, buttons of older ones are taken away. Nothing
hangs on it: what a button names is checked again when it is tapped.
"""

from __future__ import annotations

import asyncio
import contextlib

from telegram import Bot, InlineKeyboardMarkup, LinkPreviewOptions
from telegram.constants import ParseMode
from telegram.error import BadRequest, Forbidden, RetryAfter, TelegramError

from bot.bell import Bell
from bot.channels.telegram.limiter import Limiter
from bot.channels.telegram.outbound import outcome, parts
from bot.channels.telegram.staff_chat import card
from bot.logs import log
from bot.storage import people, staff, staff_chats
from bot.storage import telegram as kept
from bot.storage.database import Database
from bot.storage.errors import UnavailableError
from bot.storage.outbox import DESK
from bot.storage.staff_chats import Card

__all__ = ["Refresher"]

CALM = 0.5
"""[s] after news: what goes together is written once."""
_UNCHANGED = "message is not modified"
LOOK = 30.0
"""[s] between two looks where no news came."""


class Refresher:
    """Keeps the cards of one bot as the orders are."""

    def __init__(
        self, bot: Bot, database: Database, limiter: Limiter, *, calm: float = CALM
    ) -> None:
        self._bot = bot
        self._database = database
        self._limiter = limiter
        self._calm = calm

    async def run(self, bell: Bell, stop: asyncio.Event) -> None:
        """Follow what happens at the desk until `stop` is set."""
        ending = asyncio.ensure_future(stop.wait())
        with bell.listen(DESK) as ear:
            while not stop.is_set():
                try:
                    await self.step(stop)
                except UnavailableError as trouble:
                    log().error("database unavailable", code=trouble.code)
                except TelegramError as error:
                    log().info("cards not refreshed", code=type(error).__name__)
                rung = asyncio.ensure_future(ear.rung())
                await asyncio.wait(
                    (rung, ending), timeout=LOOK, return_when=asyncio.FIRST_COMPLETED
                )
                rung.cancel()
                with contextlib.suppress(TimeoutError):
                    await asyncio.wait_for(asyncio.shield(ending), self._calm)
        ending.cancel()

    async def step(self, stop: asyncio.Event) -> None:
        """Write anew what is outdated. Raises `TelegramError` where it has to wait."""
        with self._database.reading() as connection:
            found = staff_chats.outdated(connection)
        for one in found:
            if stop.is_set():
                return
            await self._refresh(one)

    async def _refresh(self, one: Card) -> None:
        with self._database.reading() as connection:
            chat = kept.chat_of(connection, self._database.sealer, one.person)
            member = staff.of_address(connection, one.person)
            language = people.language_of(connection, one.person)
        shown = None
        if one.last and member is not None:
            shown = card(self._database, one.number, member, language)
        if chat is not None:
            try:
                await asyncio.sleep(self._limiter.wait(chat))
                self._limiter.sent(chat)
                if shown is None:
                    await self._bot.edit_message_reply_markup(chat, one.message)
                else:
                    await self._write(chat, one.message, parts(shown.html)[0], shown.keyboard)
            except RetryAfter as error:
                pause = outcome(error).pause
                self._limiter.pause(chat, pause.total_seconds() if pause else LOOK)
                raise
            except (BadRequest, Forbidden) as error:
                if _UNCHANGED not in str(error).lower():
                    shown = None  # it is gone: nothing to follow any more
        with self._database.transaction() as connection:
            if shown is None:
                staff_chats.drop_card(connection, one)
            else:
                staff_chats.update_card(connection, one, shown.version, shown.stage)

    async def _write(
        self, chat: int, message: int, html: str, keyboard: InlineKeyboardMarkup | None
    ) -> None:
        await self._bot.edit_message_text(
            html, chat, message, parse_mode=ParseMode.HTML, reply_markup=keyboard,
            link_preview_options=LinkPreviewOptions(is_disabled=True),
        )  # fmt: skip
