"""Who writes is staff or a beekeeper: staff are let in by a code, and all they send is theirs."""

from __future__ import annotations

from collections.abc import Callable, Coroutine
from typing import Any, TypeAlias

from bot.channels.telegram import staff_chat
from bot.channels.telegram.inbound import Happened
from bot.channels.telegram.outbound import Courier
from bot.channels.telegram.poll import CHANNEL
from bot.channels.telegram.staff_chat import Card
from bot.channels.telegram.staff_words import (
    QUEUE,
    Reading,
    read_tap,
    read_words,
    spoken,
    with_words,
)
from bot.desk import order
from bot.logs import log
from bot.ports import Clock
from bot.storage import people, staff, staff_chats
from bot.storage.database import Database
from bot.storage.staff import Member
from bot.storage.staff_chats import Wanted
from conversations.events import Choose, DeskVerb, Event, Text
from conversations.locale import catalogue, languages

__all__ = ["StaffDoor"]

Aside: TypeAlias = Callable[[Coroutine[Any, Any, None]], None]


class StaffDoor:
    """Tells staff from beekeepers, message by message."""

    def __init__(self, courier: Courier, database: Database, clock: Clock, aside: Aside) -> None:
        self._courier = courier
        self._database = database
        self._clock = clock
        self._aside = aside

    def is_staff(self, person: str) -> bool:
        """Whether who writes under this address works here today."""
        with self._database.reading() as connection:
            return staff.of_address(connection, person) is not None

    def cannot_use(self, chat: int, person: str, *, edited: bool = False) -> None:
        """Say that what staff sent is neither words nor a tap; or an edit, which does nothing."""
        language = self._language(person)
        key = "telegram.staff.edited" if edited else "telegram.staff.words_only"
        self._say(chat, person, Card(catalogue(language).text(key).format(**_queue(language))))

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
        log().info("staff enrolled")
        language = self._language(person)
        welcome = catalogue(language).text("telegram.staff.welcome").format(**_queue(language))
        self._say(happened.chat, person, Card(welcome))
        return True

    def _of_staff(self, happened: Happened, member: Member) -> Event | None:
        event = happened.event
        base = {"id": event.id, "person": f"desk:{member.name}", "at": event.at, "by": member.name}
        if isinstance(event, Choose):
            reading = self._reasoned(read_tap(happened.data, base))
        elif isinstance(event, Text):
            reading = self._reasoned(read_words(event.text, base))
            if reading == Reading() and (answered := self._answered(event, base)):
                return answered
        else:
            self.cannot_use(happened.chat, event.person)
            return None
        if reading.event is not None:
            with self._database.transaction() as connection:
                staff_chats.wait_no_more(connection, event.person)
            return reading.event
        self._show(happened.chat, reading, member, event.person)
        return None

    def _answered(self, event: Text, base: dict[str, Any]) -> Event | None:
        """The action that waited for these words, if one does."""
        with self._database.transaction() as connection:
            wanted = staff_chats.use_words(connection, event.person, event.id, self._clock.now())
        return None if wanted is None else with_words(wanted, event.text, base)

    def _reasoned(self, reading: Reading) -> Reading:
        """Where something stands against the order, clearing it takes words and not only a tap."""
        event = reading.event
        if event is None or event.verb is not DeskVerb.CLEAR or event.note:
            return reading
        sheet = order.read(self._database, event.number)
        if sheet is None or not sheet.stopped:
            return reading
        return Reading(words=Wanted(event.verb.value, event.number, event.version))

    def _show(self, chat: int, reading: Reading, member: Member, person: str) -> None:
        """Show what was asked for, and remember what the next words are for."""
        with self._database.transaction() as connection:
            staff_chats.wait_no_more(connection, person)
            if reading.words is not None:
                now = self._clock.now()
                staff_chats.await_words(connection, person, reading.words, now)
        self._say(chat, person, self._shown(reading, member, self._language(person)))

    def _shown(self, reading: Reading, member: Member, language: str) -> Card:
        texts = catalogue(language)
        if reading.words is not None:
            return staff_chat.wanted_words(reading.words, language)
        if reading.choose is not None:
            number, version = reading.choose
            sheet = order.read(self._database, number)
            if sheet is None:
                return Card(texts.text("refused.no-such-order"))
            return staff_chat.measures(number, version or sheet.version, language)
        if reading.show is not None:
            shown = staff_chat.card(self._database, reading.show, member, language)
            return shown or Card(texts.text("refused.no-such-order"))
        if reading.queue:
            return staff_chat.queue_text(self._database, member, language, self._clock.now())
        if reading.leave:
            return Card(texts.text("telegram.staff.left"))
        return staff_chat.help_text(language)

    def _language(self, person: str) -> str:
        with self._database.reading() as connection:
            return people.language_of(connection, person)

    def _say(self, chat: int, person: str, shown: Card) -> None:
        self._aside(self._courier.show(chat, person, shown))


def _queue(language: str) -> dict[str, str]:
    return {"queue": spoken(QUEUE, language)}
