"""Who writes is staff or a beekeeper: staff are let in by a code, and their words are theirs."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Coroutine
from typing import Any, TypeAlias

from telegram import Bot, InlineKeyboardMarkup
from telegram.constants import ParseMode
from telegram.error import TelegramError

from bot.channels.telegram import staff_chat
from bot.channels.telegram.inbound import Happened
from bot.channels.telegram.poll import CHANNEL
from bot.desk import order
from bot.logs import log
from bot.ports import Clock
from bot.storage import people, staff
from bot.storage.database import Database
from bot.storage.staff import Member
from conversations.events import Choose, DeskVerb, Event, Text
from conversations.locale import catalogue, languages

__all__ = ["StaffDoor"]

Aside: TypeAlias = Callable[[Coroutine[Any, Any, None]], None]


class StaffDoor:
    """Tells staff from beekeepers, message by message."""

    def __init__(self, bot: Bot, database: Database, clock: Clock, aside: Aside) -> None:
        self._bot = bot
        self._database = database
        self._clock = clock
        self._aside = aside

    def event_of(self, happened: Happened) -> Event | None:
        """The event to be taken: a beekeeper's as it is, what staff do as an act of the desk.

        None where staff only wanted to see something, which is shown at once.
        """
        event = happened.event
        if isinstance(event, Text) and self._let_in(happened, event.text):
            return None
        with self._database.reading() as connection:
            member = staff.of_address(connection, event.person)
        if member is None:
            return event
        return self._of_staff(happened, member)

    def is_of_staff(self, chat: int, event: Event) -> bool:
        """Whether staff sent it; then they are told what can be sent here."""
        with self._database.reading() as connection:
            member = staff.of_address(connection, event.person)
        if member is not None:
            self._show(chat, staff_chat.Reading(), member, event.person)
        return member is not None

    def _let_in(self, happened: Happened, text: str) -> bool:
        """Whether this was a code, which makes who sent it the member of staff it is for."""
        command, _, code = text.strip().partition(" ")
        if command != "/start" or not code.strip():
            return False
        now, person = self._clock.now(), happened.event.person
        hint = (happened.event.language_hint or "").split("-")[0]
        with self._database.transaction() as connection:
            name = staff.sign_in(connection, self._database.sealer, code.strip(), now)
            if name is None:
                return False
            people.meet(connection, person, CHANNEL, now)
            people.speak(connection, person, hint if hint in languages() else "en")
            staff.bind(connection, name, person)
        log().info("staff enrolled", by=name)
        self._say(happened.chat, catalogue(self._language(person)).text("telegram.staff.welcome"))
        return True

    def _of_staff(self, happened: Happened, member: Member) -> Event | None:
        event = happened.event
        base = {"id": event.id, "person": f"desk:{member.name}", "at": event.at, "by": member.name}
        if isinstance(event, Choose):
            reading = self._reasoned(staff_chat.read_tap(happened.data, base))
        elif isinstance(event, Text):
            reading = staff_chat.read_words(event.text, base)
        else:
            reading = staff_chat.Reading()
        if reading.event is not None:
            return reading.event
        self._show(happened.chat, reading, member, event.person)
        return None

    def _reasoned(self, reading: staff_chat.Reading) -> staff_chat.Reading:
        """Where something stands against the order, clearing it takes words and not only a tap."""
        event = reading.event
        if event is None or event.verb is not DeskVerb.CLEAR:
            return reading
        sheet = order.read(self._database, event.number)
        if sheet is None or not sheet.stopped:
            return reading
        return staff_chat.Reading(words=(DeskVerb.CLEAR, event.number))

    def _show(self, chat: int, reading: staff_chat.Reading, member: Member, person: str) -> None:
        language = self._language(person)
        texts = catalogue(language)
        if reading.show is not None:
            shown = staff_chat.card(self._database, reading.show, member, language)
            if shown is None:
                self._say(chat, texts.text("refused.no-such-order"))
            else:
                self._say(chat, shown.html, shown.keyboard)
        elif reading.queue:
            listed = staff_chat.queue_text(self._database, language, self._clock.now())
            self._say(chat, listed.html, listed.keyboard)
        elif reading.choose is not None:
            question = texts.text("telegram.staff.which")
            self._say(chat, question, staff_chat.measures(*reading.choose, language))
        elif reading.words is not None:
            wanted = texts.text("telegram.staff.type").format(
                words=staff_chat.typed(*reading.words)
            )
            if reading.words[0] is DeskVerb.TURN_DOWN:
                wanted += "\n" + texts.text("telegram.staff.instead")
            elif reading.words[0] is DeskVerb.CLEAR:
                wanted = f"{texts.text('refused.needs-a-reason')}\n{wanted}"
            self._say(chat, wanted)
        else:
            self._say(chat, texts.text("telegram.staff.help"))

    def _language(self, person: str) -> str:
        with self._database.reading() as connection:
            return people.language_of(connection, person)

    def _say(self, chat: int, html: str, keyboard: InlineKeyboardMarkup | None = None) -> None:
        self._aside(self._send(chat, html, keyboard))

    async def _send(self, chat: int, html: str, keyboard: InlineKeyboardMarkup | None) -> None:
        with contextlib.suppress(TelegramError):  # what was only to be seen can be asked for again
            await self._bot.send_message(
                chat, html, parse_mode=ParseMode.HTML, reply_markup=keyboard
            )
