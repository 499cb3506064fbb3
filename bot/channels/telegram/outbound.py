"""A letter goes out as one message, or as a picture and a message; and what became of it."""

from __future__ import annotations

import asyncio
import hashlib
import re
from datetime import timedelta

import httpx
from telegram import Bot, InlineKeyboardMarkup, LinkPreviewOptions
from telegram.constants import MessageLimit, ParseMode
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)

from bot.channels.telegram.buttons import keyboard
from bot.channels.telegram.limiter import Limiter
from bot.channels.telegram.staff_chat import Card, card
from bot.logs import log
from bot.outbox import Delivery, Letter, Outcome
from bot.ports import Message, Renderer
from bot.presenter import Presenter
from bot.storage import people, staff, staff_chats
from bot.storage import telegram as kept
from bot.storage.database import Database
from bot.storage.staff import Member
from conversations.effects import Document, Picture
from conversations.locale import catalogue

__all__ = ["Courier", "outcome", "parts"]

SOON = 0.05
"""[s] a wait not worth putting the message aside for."""
PICTURE = "Cage.png"
"""The name a picture is sent under; nobody sees it."""
PAPERS = {"measuring-sheet": "paper.measuring", "copy": "paper.copy"}
"""What a paper's file is called."""
CAPTION = int(MessageLimit.CAPTION_LENGTH)
TEXT = int(MessageLimit.MAX_TEXT_LENGTH)
_TAG = re.compile(r"</?[bi]>")
_ENTITY = 8
"""[letters] the longest escaped sign, `&#34;` and the like."""
RETRY = 2.0
"""[s] before the second try where the other side named no pause."""
PATIENCE = 60.0
"""[s] so long a card that staff asked for waits to be sent once more."""
_NEVER_LEFT = (httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout)
_NO_SUCH_CHAT = "chat not found"


def _cut(line: str, most: int) -> list[str]:
    """A line in pieces of at most `most` characters; none ends inside an escaped sign.

    One that is longer than a message loses its tags: they would have to be closed and opened.
    """
    if len(line) <= most:
        return [line]
    pieces, line = [], _TAG.sub("", line)
    while len(line) > most:
        end = most
        started = line.rfind("&", end - _ENTITY, end)
        if started > 0 and ";" not in line[started:end]:
            end = started
        pieces.append(line[:end])
        line = line[end:]
    return [*pieces, line]


def parts(html: str, most: int = TEXT) -> list[str]:
    """`html` in pieces of at most `most` characters, cut between paragraphs, else between
    lines. No tag of ours goes over the end of a line."""
    pieces: list[str] = []
    for line in html.split("\n"):
        whole = f"{pieces[-1]}\n{line}" if pieces else line
        if pieces and len(whole) <= most:
            pieces[-1] = whole
        else:
            pieces += _cut(line, most)
    return [piece.strip("\n") or "…" for piece in pieces]


def outcome(error: TelegramError) -> Delivery:
    """What an error says of the message: whether it may have arrived, and what to do.

    `BadRequest` is a `NetworkError` to the library and is looked at before it.
    """
    match error:
        case RetryAfter():
            return Delivery(Outcome.NOT_SENT, pause=_pause_of(error) + timedelta(seconds=1))
        case Forbidden():
            return Delivery(Outcome.GONE)
        case BadRequest() if _NO_SUCH_CHAT in str(error).lower():
            return Delivery(Outcome.GONE)
        case BadRequest() | ChatMigrated():
            return Delivery(Outcome.REFUSED, code="bad-request")
        case InvalidToken():
            return Delivery(Outcome.NOT_SENT, pause=timedelta(seconds=60))
        case NetworkError() if isinstance(error.__cause__, _NEVER_LEFT):
            return Delivery(Outcome.NOT_SENT)
        case NetworkError() if isinstance(error.__cause__, httpx.HTTPError):
            return Delivery(Outcome.NO_ANSWER)
        case NetworkError():
            return Delivery(Outcome.NOT_SENT)  # it answered that it could not
        case _:
            return Delivery(Outcome.REFUSED, code=type(error).__name__)


def _pause_of(error: RetryAfter) -> timedelta:
    pause = error.retry_after
    return pause if isinstance(pause, timedelta) else timedelta(seconds=pause)


class Courier:
    """Sends letters through one bot."""

    def __init__(
        self, bot: Bot, database: Database, presenter: Presenter, renderer: Renderer,
        limiter: Limiter,
    ) -> None:  # fmt: skip
        self._bot = bot
        self._database = database
        self._presenter = presenter
        self._renderer = renderer
        self._limiter = limiter
        self._pictured: set[int] = set()
        """Letters whose picture is out while their words are not."""
        self._papered: set[int] = set()
        """Letters whose paper is out while the rest is not."""

    async def deliver(self, letter: Letter) -> Delivery:
        """Send one letter; what became of it."""
        with self._database.reading() as connection:
            chat = kept.chat_of(connection, self._database.sealer, letter.to)
            member = None if letter.k else staff.of_address(connection, letter.to)
        if chat is None or (letter.k is None and member is None):
            return Delivery(Outcome.REFUSED, code="nobody-there")
        wait = self._limiter.wait(chat)
        if wait > SOON:
            return Delivery(Outcome.NOT_SENT, pause=timedelta(seconds=wait))
        try:
            ref = await self._send(chat, letter, member)
        except TelegramError as error:
            delivery = outcome(error)
            if isinstance(error, RetryAfter) and delivery.pause is not None:
                self._limiter.pause(chat, delivery.pause.total_seconds())
            return delivery
        self._pictured.discard(letter.seq)
        self._papered.discard(letter.seq)
        return Delivery(Outcome.SENT, ref=str(ref))

    async def show(self, chat: int, person: str, shown: Card) -> None:
        """Send what a member of staff asked for; once more where it did not come through."""
        if not await self.told(chat, shown.html, shown.keyboard, person=person, shown=shown):
            log().warning("card not sent", number=shown.number)

    async def say(self, chat: int, html: str) -> None:
        """Say something to somebody beside their conversation."""
        if not await self.told(chat, html):
            log().warning("notice not sent")

    async def told(
        self, chat: int, html: str, keyboard: InlineKeyboardMarkup | None = None, *,
        person: str = "", shown: Card | None = None, patience: float = PATIENCE,
    ) -> bool:  # fmt: skip
        """Say something beside the outbox, with one more try; whether it came through.

        `patience` [s]: longer than that it never waits.
        """
        pause = self._limiter.wait(chat)
        for last in (False, True):
            await asyncio.sleep(min(pause, patience))
            try:
                sent = await self._words(chat, parts(html)[0], keyboard)
            except TelegramError as error:
                delivery = outcome(error)
                log().info("not sent at once", code=type(error).__name__)
                if last or delivery.outcome not in (Outcome.NOT_SENT, Outcome.NO_ANSWER):
                    return False
                pause = delivery.pause.total_seconds() if delivery.pause else RETRY
                if isinstance(error, RetryAfter):
                    self._limiter.pause(chat, pause)
            else:
                self._keep_card(person, sent, shown)
                return True
        return False

    def _keep_card(self, person: str, message: int, shown: Card | None) -> None:
        if shown is not None and shown.number is not None:
            with self._database.transaction() as connection:
                staff_chats.keep_card(
                    connection, person, message, shown.number, shown.version, shown.stage
                )

    async def _send(self, chat: int, letter: Letter, member: Member | None) -> int:
        if letter.k is None:
            assert member is not None
            return await self._to_staff(chat, letter, member)
        message = self._presenter.present(letter.say)
        buttons = keyboard(letter.k, message.buttons)
        if message.document is not None and letter.seq not in self._papered:
            await self._paper(chat, message.document, letter.say.language)
            self._papered.add(letter.seq)
        picture = None if letter.seq in self._pictured else message.picture
        if picture is not None and len(message.text) <= CAPTION:
            return await self._photo(chat, picture, letter.say.language, message, buttons)
        if picture is not None:
            await self._photo(chat, picture, letter.say.language)
            self._pictured.add(letter.seq)
        return await self._text(chat, message, buttons)

    async def _to_staff(self, chat: int, letter: Letter, member: Member) -> int:
        """News for a member of staff: with the order's card where it is about one."""
        with self._database.reading() as connection:
            language = people.language_of(connection, letter.to)
        html = self._presenter.present(letter.say.model_copy(update={"language": language})).html
        if letter.say.number is not None:
            shown = card(
                self._database, letter.say.number, member, language, html,
                refused=letter.say.refused is not None,
            )  # fmt: skip
            if shown is not None:
                sent = await self._words(chat, parts(shown.html)[0], shown.keyboard)
                self._keep_card(letter.to, sent, shown)
                return sent
        return await self._words(chat, parts(html)[0], None)

    async def _text(self, chat: int, message: Message, buttons: InlineKeyboardMarkup | None) -> int:
        *before, last = parts(message.html)
        for piece in before:
            await self._words(chat, piece, None)
        return await self._words(chat, last, buttons)

    async def _words(self, chat: int, html: str, buttons: InlineKeyboardMarkup | None) -> int:
        self._limiter.sent(chat)
        sent = await self._bot.send_message(
            chat, html, parse_mode=ParseMode.HTML, reply_markup=buttons,
            link_preview_options=LinkPreviewOptions(is_disabled=True),
        )  # fmt: skip
        return sent.message_id

    async def _paper(self, chat: int, document: Document, language: str) -> None:
        """The paper alone, before the words and buttons it belongs to."""
        made = self._renderer.pdf(document, language)
        number = "" if document.order is None else f" {document.order.number}"
        title = catalogue(language).text(PAPERS[document.name])
        self._limiter.sent(chat)
        await self._bot.send_document(chat, made, filename=f"{title}{number}.pdf")

    async def _photo(
        self, chat: int, picture: Picture, language: str, message: Message | None = None,
        buttons: InlineKeyboardMarkup | None = None,
    ) -> int:  # fmt: skip
        name = _name(picture, language)
        with self._database.reading() as connection:
            known = kept.file_of(connection, name)
        caption = message.html if message else None
        if known is not None:
            try:
                return await self._show(chat, known, caption, buttons, name)
            except BadRequest:
                # The other side forgot the file: send the picture itself once more.
                with self._database.transaction() as connection:
                    kept.forget_file(connection, name)
        drawn = self._renderer.png(picture, language)
        return await self._show(chat, drawn, caption, buttons, name)

    async def _show(
        self, chat: int, photo: str | bytes, caption: str | None,
        buttons: InlineKeyboardMarkup | None, name: str,
    ) -> int:  # fmt: skip
        self._limiter.sent(chat)
        sent = await self._bot.send_photo(
            chat, photo, caption=caption, parse_mode=ParseMode.HTML, reply_markup=buttons,
            filename=PICTURE,
        )  # fmt: skip
        if isinstance(photo, bytes) and sent.photo:
            with self._database.transaction() as connection:
                kept.keep_file(connection, name, sent.photo[-1].file_id)
        return sent.message_id


def _name(picture: Picture, language: str) -> str:
    """The same for the same picture in the same language."""
    content = f"{language} {picture.model_dump_json()}"
    return f"{picture.name} {hashlib.sha256(content.encode()).hexdigest()[:24]}"
