"""Forms that were posted: read, checked that they are ours, counted, made into events."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request

from bot.channels.photo_intake import PHOTOS_PER_ORDER, take_photo
from bot.channels.web.identity import Visitor
from bot.channels.web.page import device_language
from bot.channels.web.parts import Parts
from bot.channels.web.signed_in import SignedIn
from bot.channels.web.trouble import Trouble
from bot.photos import BYTES_AT_MOST, PhotoError
from conversations.events import Choose, Desk, DeskVerb, Edit, Event, Photo, Text

__all__ = [
    "TEXT_AT_MOST", "desk_event", "edit_event", "most", "said_event", "value", "whole_form",
]  # fmt: skip

TEXT_AT_MOST = 4000
"""[characters] far more than any answer needs."""
FORM_AT_MOST = 64 * 1024
_CHUNK = 64 * 1024
_ID = re.compile(r"[A-Za-z0-9_-]{8,64}")
_NUMBER = re.compile(r"[0-9]{1,9}")


def most(path: str) -> int:
    """How long a body for this path may be [bytes]."""
    return BYTES_AT_MOST + FORM_AT_MOST if path == "/chat/send" else FORM_AT_MOST


@asynccontextmanager
async def whole_form(request: Request, visitor: Visitor | None) -> AsyncIterator[FormData]:
    """The fields of a form that we made for this visitor; `Trouble` otherwise."""
    if visitor is None:  # before anything is read: only our own pages lead here
        raise Trouble(403, "form")
    async with request.form(max_files=1, max_fields=12, max_part_size=FORM_AT_MOST) as form:
        if not visitor.made(value(form, "form")):
            raise Trouble(403, "form")
        if not _ID.fullmatch(value(form, "id")):
            raise Trouble(400, "form")
        yield form


def value(form: FormData, name: str) -> str:
    """A text field of the form; empty where there is none."""
    found = form.get(name)
    if not isinstance(found, str):
        return ""
    if len(found) > TEXT_AT_MOST:
        raise Trouble(413, "long")
    return found


async def said_event(request: Request, parts: Parts, who: Visitor, form: FormData) -> Event | None:
    """What the person sent: a choice, a photo, or words; None where the form is empty."""
    identity, person = f"{who.person}:{value(form, 'id')}", who.person
    at, hint = parts.clock.now(), device_language(request)
    if choice := value(form, "choice"):
        return Choose(
            id=identity, person=person, at=at, language_hint=hint,
            choice=choice, of=_number(form, "of"),
        )  # fmt: skip
    text = value(form, "text").strip()
    photo = form.get("photo")
    if isinstance(photo, UploadFile) and photo.filename:
        kept = await _kept(parts, who, photo)
        return Photo(
            id=identity, person=person, at=at, language_hint=hint, photo=kept, caption=text
        )
    if not text:
        return None
    return Text(id=identity, person=person, at=at, language_hint=hint, text=text)


def edit_event(parts: Parts, who: Visitor, form: FormData) -> Event | None:
    """An earlier message as the person wants it to be; None where the form is empty."""
    k, text = _number(form, "message"), value(form, "text").strip()
    if k is None or not text:
        return None
    return Edit(
        id=f"{who.person}:{value(form, 'id')}",
        person=who.person,
        at=parts.clock.now(),
        message=k,
        text=text,
    )


def desk_event(parts: Parts, who: SignedIn, number: str, form: FormData) -> Desk:
    """What this member of staff does with the order; `Trouble` where the form is not ours."""
    verb, version = value(form, "verb"), value(form, "version")
    if verb not in frozenset(DeskVerb) or not _NUMBER.fullmatch(version):
        raise Trouble(400, "form")
    return Desk(
        id=f"{who.mailbox}:{value(form, 'id')}",
        person=who.mailbox,
        at=parts.clock.now(),
        by=who.name,
        verb=DeskVerb(verb),
        number=number,
        version=int(version),
        measure=value(form, "measure") or None,
        note=value(form, "note").strip(),
        would_work=value(form, "would_work").strip(),
    )


def _number(form: FormData, name: str) -> int | None:
    typed = value(form, name)
    return int(typed) if _NUMBER.fullmatch(typed) else None


async def _kept(parts: Parts, who: Visitor, photo: UploadFile) -> str:
    async def chunks() -> AsyncIterator[bytes]:
        while chunk := await photo.read(_CHUNK):
            yield chunk

    try:
        return await take_photo(
            parts.database, parts.shelf, who.person, chunks(), parts.clock.now()
        )
    except PhotoError as refused:
        raise Trouble(413 if refused.code == "too-big" else 422, "photo", refused.code,
                      most=PHOTOS_PER_ORDER) from refused  # fmt: skip
