"""What happens to a conversation: a person does something, the desk does, or time passes.

Every event names the person whose conversation it belongs to (for a desk event: the person
who owns the order), the moment, and an id; the same id twice is one event.
"""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter

__all__ = [
    "Choose", "Desk", "DeskVerb", "Due", "Edit", "Event", "Photo", "Text", "Unusable", "Voice",
    "event_from_json",
]  # fmt: skip


class _Event(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    person: str
    at: datetime
    language_hint: str | None = None
    """Language the person's device speaks; only used before a language was chosen."""


class Text(_Event):
    """The person typed something."""

    kind: Literal["text"] = "text"
    text: str
    reply_to: int | None = None
    """k: it answers the k-th message the person received."""


class Choose(_Event):
    """The person tapped a choice that was offered."""

    kind: Literal["choose"] = "choose"
    choice: str
    of: int | None = None
    """k: a choice of the k-th message received; None: of the newest that offers it."""


class Photo(_Event):
    """The person sent a picture, kept already under `photo`; the caption is read like text.

    Pictures sent together carry the same `album`: they are one answer and get one reply.
    """

    kind: Literal["photo"] = "photo"
    photo: str
    caption: str = ""
    reply_to: int | None = None
    album: str | None = None


class Voice(_Event):
    """The person sent a voice note, which nobody listened to."""

    kind: Literal["voice"] = "voice"


class Unusable(_Event):
    """The person sent something that is neither words nor a picture, or that did not arrive.

    `what` is `photo` for a picture that could not be fetched, else `other`.
    """

    kind: Literal["unusable"] = "unusable"
    what: Literal["photo", "other"] = "other"


class Edit(_Event):
    """The person edited an earlier message: the `message`-th one sent."""

    kind: Literal["edit"] = "edit"
    message: int
    text: str


class Due(_Event):
    """A reminder has come due."""

    kind: Literal["due"] = "due"
    what: str


class DeskVerb(StrEnum):
    """What staff can do with an order."""

    TAKE = "take"
    ASK = "ask"
    CLEAR = "clear"
    CHANGE = "change"
    TURN_DOWN = "turn-down"
    HAND_ON = "hand-on"
    HOLD = "hold"
    BENCH = "bench"
    MADE = "made"
    POSTED = "posted"
    NOTE = "note"
    FIT = "fit"


class Desk(_Event):
    """A staff member did something with an order of this person."""

    kind: Literal["desk"] = "desk"
    by: str
    """The staff member, without the `desk:` in front."""
    verb: DeskVerb
    number: str
    version: int | None = None
    """The version that was looked at; None stands for the newest."""
    measure: str | None = None
    note: str = ""
    would_work: str = ""
    """With a refusal to make it: what would work instead."""


Event = Annotated[
    Text | Choose | Photo | Voice | Unusable | Edit | Due | Desk, Field(discriminator="kind")
]

_ADAPTER: TypeAdapter[Event] = TypeAdapter(Event)


def event_from_json(text: str | bytes) -> Event:
    """The event that was written with `model_dump_json`; `pydantic.ValidationError` otherwise."""
    return _ADAPTER.validate_json(text)
