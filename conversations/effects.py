"""What a turn of the conversation wants done. The machine only says so; the shell does it.

Words are never in an effect: a `Line` names a text of the catalogues and carries the values
that go into it, each with its kind, so that every language writes lengths, dates and numbers
in its own way and nothing a person typed is ever taken for markup.
"""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter

from sizing.measures import Request

__all__ = [
    "Answered",
    "Cage",
    "Choice",
    "Contact",
    "Count",
    "DateValue",
    "Document",
    "Effect",
    "Free",
    "InUnit",
    "Journal",
    "LengthValue",
    "Line",
    "Money",
    "NoMoreReminders",
    "Noted",
    "NumberValue",
    "OrderCopy",
    "OrderVersion",
    "PhotoKept",
    "Picture",
    "Remind",
    "Say",
    "StageMoved",
    "TextKey",
    "Value",
    "Wipe",
    "effect_from_json",
]  # fmt: skip


class _Plain(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


# --- values that go into a text -------------------------------------------------------


class LengthValue(_Plain):
    """A length [mm]; shown in mm, and beside it in `also`."""

    kind: Literal["length"] = "length"
    mm: Fraction
    also: Literal["cm", "in"] | None = None


class InUnit(_Plain):
    """A length [mm] shown in one unit alone, as somebody typed it."""

    kind: Literal["in-unit"] = "in-unit"
    mm: Fraction
    unit: Literal["mm", "cm", "m", "in"]


class Count(_Plain):
    """A whole number; it also chooses the plural form of its text."""

    kind: Literal["count"] = "count"
    n: int


class NumberValue(_Plain):
    """An order number: 8 digits, shown in groups."""

    kind: Literal["number"] = "number"
    number: str


class DateValue(_Plain):
    """A day in the beekeeper's calendar."""

    kind: Literal["date"] = "date"
    day: date


class Money(_Plain):
    """An amount of money, in a currency by its ISO 4217 code."""

    kind: Literal["money"] = "money"
    amount: Decimal
    currency: str


class Free(_Plain):
    """Words somebody typed, shown as they are."""

    kind: Literal["free"] = "free"
    text: str


class TextKey(_Plain):
    """Another text of the catalogues, put into this one."""

    kind: Literal["key"] = "key"
    key: str


Value = Annotated[
    LengthValue | InUnit | Count | NumberValue | DateValue | Money | Free | TextKey,
    Field(discriminator="kind"),
]


class Line(_Plain):
    """One text of the catalogues with its values; `blank` stands for an empty line."""

    key: str
    values: dict[str, Value] = {}


class Choice(_Plain):
    """Something that can be tapped; the id is what counts, the label is only shown."""

    id: str
    label: Line


class Cage(_Plain):
    """One kind of cage in an order."""

    item: int = 1
    label: str = ""
    pieces: int
    request: Request


class OrderCopy(_Plain):
    """What the customer keeps of an order: handed in or cleared on that day."""

    number: str
    version: int
    stage: str
    day: date
    cages: tuple[Cage, ...]


class Picture(_Plain):
    """A picture to send along: how to measure `name`, the cage for `request`, or the copy of
    an `order`."""

    name: str
    request: Request | None = None
    order: OrderCopy | None = None


class Document(_Plain):
    """A paper to send along: `measuring-sheet`, or the `copy` of an order."""

    name: Literal["measuring-sheet", "copy"]
    order: OrderCopy | None = None


# --- effects --------------------------------------------------------------------------


class Say(_Plain):
    """One message. `to` is `person`, `desk` (all staff) or `desk:NAME`.

    `question`, `again`, `stage` and `number` say what the message is about, for programs.
    `refused` is the code of a refusal to a staff member.
    """

    kind: Literal["say"] = "say"
    to: str = "person"
    lines: tuple[Line, ...]
    choices: tuple[Choice, ...] = ()
    picture: Picture | None = None
    document: Document | None = None
    question: str | None = None
    again: bool = False
    stage: str | None = None
    number: str | None = None
    refused: str | None = None
    language: str = "en"


class Answered(_Plain):
    """An answer to a question, for the record that keeps every answer ever given.

    `reading` [mm, or a count, or a choice id] is what was understood; `step` [mm] the
    resolution of what was typed; `how` one of `typed bundled chosen proposed edited changed
    asked-again second dont-know default caption`. Any earlier answer to the same question of the
    same notebook is superseded by it.
    """

    kind: Literal["answered"] = "answered"
    question: str
    raw: str
    reading: str | None
    step: Fraction | None = None
    how: str
    number: str | None = None


class Contact(_Plain):
    """How the person wants to be reached: personal, kept sealed."""

    kind: Literal["contact"] = "contact"
    text: str


class PhotoKept(_Plain):
    """A photo belongs to this question."""

    kind: Literal["photo-kept"] = "photo-kept"
    photo: str
    question: str
    number: str | None = None


class OrderVersion(_Plain):
    """An order was handed in (version 1), or changed (a later version)."""

    kind: Literal["order-version"] = "order-version"
    number: str
    version: int
    stage: str
    cages: tuple[Cage, ...]
    by: str
    reason: str


class StageMoved(_Plain):
    """An order moved to another stage."""

    kind: Literal["stage-moved"] = "stage-moved"
    number: str
    version: int
    stage: str
    by: str


class Noted(_Plain):
    """Staff wrote a note or a reason about an order; kept sealed."""

    kind: Literal["noted"] = "noted"
    number: str
    by: str
    what: str
    text: str


class Remind(_Plain):
    """Have `Due(what)` happen at this moment; a later one of the same name replaces it."""

    kind: Literal["remind"] = "remind"
    what: str
    at: datetime


class NoMoreReminders(_Plain):
    """Forget the reminders whose name begins so."""

    kind: Literal["no-more-reminders"] = "no-more-reminders"
    beginning: str


class Journal(_Plain):
    """A line for the append-only journal: ids, codes and millimetres, never free text."""

    kind: Literal["journal"] = "journal"
    what: str
    by: str
    number: str | None = None
    version: int | None = None
    question: str | None = None
    before: str | None = None
    after: str | None = None


class Wipe(_Plain):
    """The notebook was thrown away or grew too old: its photos and answers go."""

    kind: Literal["wipe"] = "wipe"


Effect = Annotated[
    Say | Answered | Contact | PhotoKept | OrderVersion | StageMoved | Noted | Remind
    | NoMoreReminders | Journal | Wipe,
    Field(discriminator="kind"),
]  # fmt: skip

_ADAPTER: TypeAdapter[Effect] = TypeAdapter(Effect)


def effect_from_json(text: str | bytes) -> Effect:
    """The effect that was written with `model_dump_json`; `pydantic.ValidationError` otherwise."""
    return _ADAPTER.validate_json(text)
