"""What the shell needs from outside, as narrow protocols: a clock, chance, a way to send.

Fakes for tests and the real things are held to the same suite in `tests/contracts/`.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from conversations.effects import Document, Picture

__all__ = ["Button", "Chance", "Clock", "Message", "Renderer"]


class Clock(Protocol):
    """Tells the time."""

    def now(self) -> datetime:
        """This moment, with its time zone (UTC)."""


class Chance(Protocol):
    """Gives what must not be guessed."""

    def payload(self) -> int:
        """Six digits for an order number, 100000 to 999999."""


class Renderer(Protocol):
    """Turns the names and contents of pictures and papers into files."""

    def png(self, picture: Picture, language: str) -> bytes:
        """The picture as a PNG with its words in `language`."""

    def pdf(self, document: Document, language: str) -> bytes:
        """The paper as a PDF with its words in `language`."""


@dataclass(frozen=True, slots=True)
class Button:
    """A choice with its label in the person's language."""

    id: str
    label: str


@dataclass(frozen=True, slots=True)
class Message:
    """One message in one language, ready for any channel.

    `html` holds nothing but escaped text and the tags b and i; `text` is the same without tags.
    """

    html: str
    text: str
    buttons: tuple[Button, ...] = ()
    picture: Picture | None = None
    document: Document | None = None
    question: str | None = None
    again: bool = False
    stage: str | None = None
    number: str | None = None
    refused: str | None = None
