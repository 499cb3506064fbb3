"""The conversation in a terminal, for a person: choices have letters, answers are typed."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Iterator
from itertools import count
from pathlib import Path
from string import ascii_lowercase

from rich.console import Console
from rich.text import Text as Styled

from bot.channels.photo_intake import take_photo
from bot.channels.terminal.parts import CHANNEL, Gallery, Parts
from bot.outbox import Heard, Letter
from bot.photos import PhotoError
from conversations.events import Choose, Edit, Event, Photo, Text
from conversations.locale import catalogue, languages

__all__ = ["Chat"]

_CHUNK = 64 * 1024


class Chat:
    """One person talking at this terminal. `:photo FILE`, `:edit K TEXT` and `:quit` do what
    a phone does with its own buttons."""

    def __init__(
        self, parts: Parts, name: str, language: str | None, gallery: Gallery | None,
        console: Console | None = None,
    ) -> None:  # fmt: skip
        self._parts = parts
        self._name = name
        self._language = language
        self._gallery = gallery
        self._console = console or Console(highlight=False)
        self._letters: dict[str, tuple[str, int | None]] = {}
        self._ids = count(1)

    def run(self) -> None:
        """Talk until the end of input."""
        self._parts.service.resume()
        self._show()
        self._receive(self._text("/start"))
        for line in self._typed():
            event = self._event(line.strip())
            if event is not None:
                self._receive(event)

    def _typed(self) -> Iterator[str]:
        while True:
            try:
                line = self._console.input(f"{self._sent() + 1}> ")
            except (EOFError, KeyboardInterrupt):
                return
            if line.strip() == ":quit":
                return
            if line.strip():
                yield line

    def _sent(self) -> int:
        """How many messages the person sent so far; `:edit` names one by its count."""
        transcript = self._parts.outbox.transcript(self._name)
        return max((one.k or 0 for one in transcript if isinstance(one, Heard)), default=0)

    def _receive(self, event: Event) -> None:
        self._parts.service.receive(event, CHANNEL)
        self._parts.service.tick()
        self._show()

    # --- what is typed ----------------------------------------------------------------

    def _base(self) -> dict[str, object]:
        now = self._parts.clock.now()
        return {
            "id": f"{now.isoformat()}-{next(self._ids)}", "person": self._name, "at": now,
            "language_hint": self._language,
        }  # fmt: skip

    def _text(self, text: str) -> Event:
        return Text.model_validate({**self._base(), "text": text})

    def _event(self, line: str) -> Event | None:
        if line in self._letters:
            choice, k = self._letters[line]
            return Choose.model_validate({**self._base(), "choice": choice, "of": k})
        if line.startswith(":photo "):
            return self._photo(line.removeprefix(":photo ").strip())
        if line.startswith(":edit "):
            nth, _, text = line.removeprefix(":edit ").strip().partition(" ")
            if nth.isascii() and nth.isdigit() and text:
                return Edit.model_validate({**self._base(), "message": int(nth), "text": text})
        if line.startswith(":"):
            self._say_own("terminal.colon")
            return None
        return self._text(line)

    def _photo(self, name: str) -> Event | None:
        file = Path(name).expanduser()
        if not file.is_file():
            self._say_own("terminal.no_file")
            return None
        taking = take_photo(
            self._parts.database, self._parts.shelf, self._name, _chunks(file),
            self._parts.clock.now(),
        )  # fmt: skip
        try:
            photo = asyncio.run(taking)
        except PhotoError:
            self._say_own("terminal.no_photo")
            return None
        return Photo.model_validate({**self._base(), "photo": photo})

    def _say_own(self, key: str) -> None:
        """A line of this channel itself, in the language the talk began in."""
        language = self._language if self._language in languages() else "en"
        self._console.print(Styled(catalogue(language).text(key), style="italic"))

    # --- what is shown ----------------------------------------------------------------

    def _show(self) -> None:
        for letter in self._parts.outbox.backlog():
            if letter.to == self._name:
                self._show_one(letter)
                self._parts.outbox.mark_sent([letter.seq])

    def _show_one(self, letter: Letter) -> None:
        message = self._parts.presenter.present(letter.say)
        self._console.print(Styled(f"\n{message.text}"))
        if self._gallery is not None:
            for file in filter(None, (self._gallery.hang(letter), self._gallery.lay_out(letter))):
                self._console.print(Styled(f"  {file}", style="dim"))
        if message.buttons:
            self._letters = {}
        for mark, shown in zip(ascii_lowercase, message.buttons, strict=False):
            self._letters[mark] = (shown.id, letter.k)
            self._console.print(Styled(f"  {mark}  {shown.label}", style="bold"))


async def _chunks(file: Path) -> AsyncIterator[bytes]:
    with file.open("rb") as source:
        while chunk := source.read(_CHUNK):
            yield chunk
