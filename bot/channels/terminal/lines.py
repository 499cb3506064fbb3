"""One line of a script: JSON in, an event out, or an error that names the field."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

from pydantic import ValidationError

from conversations.events import Choose, Desk, DeskVerb, Edit, Event, Photo, Text, Voice
from conversations.steps import Step

__all__ = ["LineError", "duration", "event_of", "moment_of", "parsed"]

_DURATION = re.compile(
    r"P(?:(?P<weeks>\d+)W)?(?:(?P<days>\d+)D)?"
    r"(?:T(?:(?P<hours>\d+)H)?(?:(?P<minutes>\d+)M)?(?:(?P<seconds>\d+)S)?)?"
)
_DESK = "desk:"
_NAMES = {"message": "edit", "choice": "choose", "caption": "text", "language_hint": "language"}
"""What a field of an event is called in a line."""
_COMMON = frozenset({"from", "language", "id", "at"})


class LineError(ValueError):
    """The script's: a line cannot be used. `field` names what, `would_do` what would do."""

    def __init__(self, field: str, would_do: str) -> None:
        super().__init__(field, would_do)
        self.field = field
        self.would_do = would_do

    def __str__(self) -> str:
        return f"{self.field}: {self.would_do}"


def parsed(line: str) -> dict[str, Any]:
    """The JSON object on this line; `LineError` where there is none."""
    try:
        row = json.loads(line)
    except json.JSONDecodeError as error:
        raise LineError("line", f"JSON; {error.msg} at character {error.pos + 1}") from error
    if not isinstance(row, dict):
        raise LineError("line", "a JSON object")
    return row


def duration(text: object) -> timedelta:
    """The time span that ISO 8601 writes like P3D or PT2H30M; `LineError` otherwise."""
    match = _DURATION.fullmatch(str(text))
    if match is None or not any(match.groups()):
        raise LineError("advance", "a duration like P3D or PT2H30M")
    return timedelta(**{unit: int(amount) for unit, amount in match.groupdict("0").items()})


def moment_of(text: object) -> datetime:
    """The moment that ISO 8601 writes; without a time zone it is UTC. `LineError` otherwise."""
    try:
        moment = datetime.fromisoformat(str(text))
    except ValueError as error:
        raise LineError("at", "a moment like 2026-03-02T09:00:00Z") from error
    return moment.astimezone(UTC) if moment.tzinfo else moment.replace(tzinfo=UTC)


def only(row: dict[str, Any], *known: str) -> None:
    """`LineError` for a field that means nothing in this kind of line."""
    for name in row:
        if name not in _COMMON and name not in known:
            raise LineError(name, f"only {', '.join(sorted({*known, *_COMMON}))} here")


def event_of(
    row: dict[str, Any], at: datetime, identity: str, keep: Callable[[object, str], str]
) -> Event:
    """The event the line describes. `keep` puts a photo's file away and gives its name."""
    sender = row.get("from")
    if not isinstance(sender, str) or not sender.strip():
        raise LineError("from", "a name, or desk: and a name")
    base = {
        "id": str(row.get("id", identity)), "person": sender, "at": at,
        "language_hint": row.get("language"),
    }  # fmt: skip
    try:
        if sender.startswith(_DESK):
            return _desk_event(row, base)
        return _person_event(row, base, keep)
    except ValidationError as error:
        first = error.errors(include_input=False, include_url=False)[0]
        name = str(first["loc"][0])
        raise LineError(_NAMES.get(name, name), first["msg"]) from None


def _person_event(
    row: dict[str, Any], base: dict[str, Any], keep: Callable[[object, str], str]
) -> Event:
    if "photo" in row:
        only(row, "photo", "text", "reply_to")
        photo = keep(row["photo"], base["person"])
        caption = row.get("text", "")
        return Photo(photo=photo, caption=caption, reply_to=row.get("reply_to"), **base)
    if "voice" in row:
        only(row, "voice")
        return Voice(**base)
    if "edit" in row:
        only(row, "edit", "text")
        return Edit(message=row["edit"], text=row.get("text", ""), **base)
    if "choose" in row:
        only(row, "choose", "of", "reply_to")
        return Choose(choice=row["choose"], of=row.get("of", row.get("reply_to")), **base)
    if "text" in row:
        only(row, "text", "reply_to")
        return Text(text=row["text"], reply_to=row.get("reply_to"), **base)
    raise LineError("line", "one of text, choose, photo, voice, edit, do, advance")


def _desk_event(row: dict[str, Any], base: dict[str, Any]) -> Desk:
    only(row, "do", "number", "version", "measure", "note", "would_work")
    if row.get("do") not in frozenset(DeskVerb):
        raise LineError("do", f"one of {' '.join(DeskVerb)}")
    if not isinstance(row.get("number"), str):
        raise LineError("number", "an order number, as text")
    if row["do"] == DeskVerb.ASK and row.get("measure") not in frozenset(Step):
        raise LineError("measure", "the name of a measure, like side_to_side")
    return Desk(
        by=base["person"].removeprefix(_DESK), verb=row["do"], number=row["number"],
        version=row.get("version"), measure=row.get("measure"), note=row.get("note", ""),
        would_work=row.get("would_work", ""), **base,
    )  # fmt: skip
