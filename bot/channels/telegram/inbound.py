"""A raw update of the Bot API becomes what happened to a conversation, or is left aside.

An update is taken as it came, a plain dictionary: what cannot be understood is said to be so and
never stops the updates after it. Ids of events are those of messages, not of updates, which
begin anew at random after a quiet week (Bot API, Update).
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, TypeAlias

from bot.channels.telegram.buttons import unpack
from bot.storage.errors import UnavailableError
from conversations.events import Choose, Edit, Event, Photo, Text, Unusable, Voice

__all__ = [
    "Aside", "Directory", "Group", "Happened", "Incoming", "Left", "Picture", "Unknown",
    "incoming",
]  # fmt: skip

MEGABYTES = 20
"""The most that can be fetched from the other side (Bot API, getFile)."""
LONGEST = 4096
_HEARD = ("voice", "audio", "video_note")


@dataclass(frozen=True, slots=True)
class Happened:
    """Something happened to the conversation of `event.person` in this chat.

    `tapped`: the id of the tap, to be acknowledged to the other side; `data`: what it carried.
    `why`: the code of what is wrong with a file that is no photo of ours.
    """

    chat: int
    event: Event
    tapped: str | None = None
    data: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture still to be fetched as `file`; `event` is what happened once it is here."""

    chat: int
    file: str
    event: Photo


@dataclass(frozen=True, slots=True)
class Group:
    """Somebody wrote in a group: orders are personal, so it is refused, politely."""

    chat: int
    language: str | None


@dataclass(frozen=True, slots=True)
class Left:
    """The person blocked us."""

    person: str


@dataclass(frozen=True, slots=True)
class Unknown:
    """The person edited a message that was none of their conversation."""

    chat: int
    person: str


@dataclass(frozen=True, slots=True)
class Aside:
    """Nothing for a conversation. `why` is a code."""

    why: str


Incoming: TypeAlias = Happened | Picture | Group | Left | Unknown | Aside


@dataclass(frozen=True, slots=True)
class Directory:
    """What has to be looked up: the person of a user id, the count of a message of theirs (by
    event id) and of ours (by the other side's message id), the id of a choice."""

    person: Callable[[int], str]
    said: Callable[[str], int | None]
    heard: Callable[[str, str], int | None]
    choice: Callable[[str, int, int], str | None]


def incoming(update: Mapping[str, Any], directory: Directory) -> Incoming:
    """What this update is: one of a shape we do not know is left aside.

    Raises only `UnavailableError`, where nothing can be looked up just now.
    """
    try:
        for kind, read in _READERS.items():
            if kind in update:
                return read(update[kind], directory)
    except UnavailableError:
        raise
    except Exception as error:  # noqa: BLE001 - whatever is wrong with one, the next has its turn
        return Aside(f"unreadable-{type(error).__name__}")
    return Aside("unknown-kind")


def message_id(person: str, message: int) -> str:
    """The id of the event that this message of this person is."""
    return f"{person} m{message}"


def _message(message: Mapping[str, Any], directory: Directory) -> Incoming:
    chat, sender = message["chat"], message.get("from")
    if sender is None or sender.get("is_bot") or "sender_chat" in message:
        return Aside("not-a-person")
    if chat["type"] != "private":
        return Group(chat["id"], sender.get("language_code"))
    person = directory.person(sender["id"])
    base = {
        "id": message_id(person, message["message_id"]),
        "person": person,
        "at": datetime.fromtimestamp(message["date"], UTC),
        "language_hint": sender.get("language_code"),
    }
    reply = message.get("reply_to_message")
    reply_to = directory.heard(person, str(reply["message_id"])) if reply else None
    if "text" in message:
        text = message["text"][:LONGEST]
        return Happened(chat["id"], Text(text=text, reply_to=reply_to, **base))
    if (file := _picture_file(message)) is not None:
        caption, album = message.get("caption", ""), message.get("media_group_id")
        photo = Photo(photo="", caption=caption, reply_to=reply_to, album=album, **base)
        return Picture(chat["id"], file, photo)
    return Happened(chat["id"], _other(message, base), why=_why_no_photo(message))


def _other(message: Mapping[str, Any], base: Mapping[str, Any]) -> Event:
    if any(kind in message for kind in _HEARD):
        return Voice(**base)
    if "contact" in message:
        shared = message["contact"]
        names = (shared.get("first_name"), shared.get("last_name"), shared["phone_number"])
        return Text(text=" ".join(name for name in names if name), **base)
    return Unusable(
        what="photo" if "photo" in message or "document" in message else "other", **base
    )


def _why_no_photo(message: Mapping[str, Any]) -> str:
    """Why a photo or file that came is none we can keep; empty where none came."""
    document = message.get("document")
    if document and not str(document.get("mime_type", "")).startswith("image/"):
        return "not-a-picture"
    return "too-big" if document or message.get("photo") else ""


def _picture_file(message: Mapping[str, Any]) -> str | None:
    """The largest form of a photo that can be fetched, or a picture sent as a file."""
    most = MEGABYTES * 1024 * 1024
    sizes = [size for size in message.get("photo", ()) if size.get("file_size", 0) <= most]
    if sizes:
        return str(max(sizes, key=lambda size: size["width"] * size["height"])["file_id"])
    document = message.get("document")
    if document and str(document.get("mime_type", "")).startswith("image/"):
        return str(document["file_id"]) if document.get("file_size", 0) <= most else None
    return None


def _edited(message: Mapping[str, Any], directory: Directory) -> Incoming:
    if message["chat"]["type"] != "private" or "text" not in message:
        return Aside("edit-of-no-words")
    person = directory.person(message["from"]["id"])
    k = directory.said(message_id(person, message["message_id"]))
    if k is None:
        return Unknown(message["chat"]["id"], person)
    changed = message["edit_date"]
    # Two edits in the same second are two events; the words tell them apart.
    words = hashlib.sha256(message["text"].encode()).hexdigest()[:8]
    return Happened(
        message["chat"]["id"],
        Edit(
            id=f"{message_id(person, message['message_id'])} e{changed} {words}",
            person=person,
            at=datetime.fromtimestamp(changed, UTC),
            message=k,
            text=message["text"][:LONGEST],
        ),
    )


def _tapped(query: Mapping[str, Any], directory: Directory) -> Incoming:
    message = query.get("message")
    if message is None or message["chat"]["type"] != "private":
        return Aside("tap-outside")
    person = directory.person(query["from"]["id"])
    place = unpack(str(query.get("data", "")))
    choice = directory.choice(person, *place) if place else None
    return Happened(
        message["chat"]["id"],
        Choose(
            id=f"{person} c{query['id']}",
            person=person,
            at=datetime.fromtimestamp(message["date"], UTC) if message.get("date") else _EPOCH,
            language_hint=query["from"].get("language_code"),
            choice=choice or "gone",
            of=place[0] if place and choice else None,
        ),
        tapped=str(query["id"]),
        data=str(query.get("data", "")),
    )


def _membership(change: Mapping[str, Any], directory: Directory) -> Incoming:
    gone = change["new_chat_member"]["status"] in ("kicked", "left")
    if change["chat"]["type"] == "private" and gone:
        return Left(directory.person(change["from"]["id"]))
    return Aside("membership")


_EPOCH = datetime.fromtimestamp(0, UTC)
_READERS: dict[str, Callable[[Mapping[str, Any], Directory], Incoming]] = {
    "message": _message,
    "edited_message": _edited,
    "callback_query": _tapped,
    "my_chat_member": _membership,
}
KINDS = tuple(_READERS)
"""The kinds of updates we ask for."""
