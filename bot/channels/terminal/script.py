"""The conversation from a script of JSON lines, for programs.

One event a line in, one message a line out, and after each line of input a line that says
so. The clock stands still between lines.
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Callable, Iterable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from bot.channels.photo_intake import take_photo
from bot.channels.terminal.lines import LineError, duration, event_of, moment_of, only, parsed
from bot.channels.terminal.parts import CHANNEL, Gallery, Parts
from bot.outbox import Letter
from bot.photos import PhotoError
from bot.storage import newest
from bot.world import SetClock

__all__ = ["SCRIPT_START", "Script"]

SCRIPT_START = datetime(2026, 3, 2, 9, tzinfo=UTC)


class Script:
    """Holds the conversation that a script of JSON lines describes."""

    def __init__(
        self, parts: Parts, clock: SetClock, write: Callable[[dict[str, Any]], None],
        gallery: Gallery | None = None,
    ) -> None:  # fmt: skip
        self._parts = parts
        self._clock = clock
        self._write = write
        self._gallery = gallery
        with parts.database.reading() as connection:
            self._before = newest.event(connection)

    def run(self, lines: Iterable[str]) -> None:
        """Play all lines; one that cannot be used is answered with an error and passed over."""
        for number, line in enumerate(lines, 1):
            if line.strip():
                try:
                    self._play(parsed(line), number)
                except LineError as error:
                    self._write({"error": str(error), "line": number})
            self._send()
            self._write({"done": number})

    def _play(self, row: dict[str, Any], number: int) -> None:
        if "advance" in row:
            only(row, "advance")
            self._until(self._clock.now() + duration(row["advance"]))
            return
        if "at" in row:
            self._until(max(moment_of(row["at"]), self._clock.now()))
        # A second script on the same database must not repeat the ids of the first.
        identity = f"{self._before}+{number}"
        event = event_of(row, self._clock.now(), identity, self._kept)
        self._parts.service.receive(event, CHANNEL)

    def _until(self, moment: datetime) -> None:
        """Go on to `moment`; what comes due on the way happens at its own time."""
        while (due := self._parts.service.next_reminder()) is not None and due <= moment:
            self._clock.set(max(due, self._clock.now()))
            self._parts.service.tick()
        self._clock.set(moment)

    def _kept(self, file: object, person: str) -> str:
        try:
            raw = Path(str(file)).read_bytes()
        except OSError as error:
            raise LineError("photo", f"a file that can be read, not {file}") from error
        taking = take_photo(
            self._parts.database, self._parts.shelf, person, _chunks(raw), self._clock.now()
        )
        try:
            return asyncio.run(taking)
        except PhotoError as refused:
            raise LineError("photo", f"a JPEG, PNG or WebP picture ({refused.code})") from refused

    def _send(self) -> None:
        for letter in self._parts.outbox.backlog():
            self._write(self._shown_letter(letter))
            self._parts.outbox.mark_sent([letter.seq])

    def _shown_letter(self, letter: Letter) -> dict[str, Any]:
        message = self._parts.presenter.present(letter.say)
        if message.refused:
            return {"to": letter.to, "refused": message.refused, "text": message.text}
        return {
            "to": letter.to,
            "text": message.text,
            "choices": [{"id": one.id, "label": one.label} for one in message.buttons],
            "picture": self._picture(letter),
            "document": self._document(letter),
            "question": message.question,
            "again": message.again,
            "stage": message.stage,
            "number": message.number,
        }

    def _picture(self, letter: Letter) -> str | None:
        """The file the picture was written to, or its name where no pictures are wanted."""
        picture = letter.say.picture
        if picture is None:
            return None
        return picture.name if self._gallery is None else str(self._gallery.hang(letter))

    def _document(self, letter: Letter) -> str | None:
        """The file the paper was written to, or its name where no pictures are wanted."""
        document = letter.say.document
        if document is None:
            return None
        return document.name if self._gallery is None else str(self._gallery.lay_out(letter))


async def _chunks(raw: bytes) -> AsyncIterator[bytes]:
    yield raw
