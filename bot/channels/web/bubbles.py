"""The chat as it stands on the page: what the person sent and what they got, as bubbles."""

from __future__ import annotations

import struct
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import chain

from markupsafe import Markup

from bot.channels.web.page import Words
from bot.outbox import Heard, Letter
from bot.ports import Button, Message, Renderer
from bot.presenter import Presenter
from conversations.effects import Document, Picture
from conversations.events import Choose, Edit, Photo, Text

__all__ = ["MENU", "Mine", "Ours", "after", "bubbles", "language_of", "picture_alt"]

MENU = (
    "change", "repeat", "later", "person", "help", "sheet", "privacy", "language", "status",
    "start-over",
)  # fmt: skip
"""What can be asked for at any time: the command that is sent, without its stroke."""


@dataclass(frozen=True, slots=True)
class Mine:
    """Something the person sent. `k`: their k-th message, where it can still be changed;
    `changed`: they have done so."""

    key: str
    text: str
    k: int | None = None
    photo: str | None = None
    changed: bool = False
    mine: bool = True


@dataclass(frozen=True, slots=True)
class Ours:
    """A message the person got: the k-th; `seq` is its row in the outbox."""

    key: str
    seq: int
    k: int | None
    html: Markup
    buttons: tuple[Button, ...]
    picture: Picture | None
    picture_size: tuple[int, int] | None
    alt: str
    paper: str = ""
    """What the paper that came along is called; empty where none did."""
    mine: bool = False


def bubbles(
    entries: Iterable[Heard | Letter], presenter: Presenter, renderer: Renderer, language: str
) -> list[Mine | Ours]:
    """The transcript as bubbles, in its order; commands are named in `language`.

    A message that was changed stands at its old place with its new words.
    """
    words = Words(language)
    made: list[Mine | Ours] = []
    got: list[tuple[int | None, Message]] = []
    places: dict[int, int] = {}
    for entry in entries:
        if isinstance(entry, Letter):
            message = presenter.present(entry.say)
            got.append((entry.k, message))
            made.append(_ours(entry, message, renderer))
            continue
        event = entry.event
        if isinstance(event, Edit) and (place := places.get(event.message)) is not None:
            earlier = made[place]
            assert isinstance(earlier, Mine)
            made[place] = replace(earlier, text=event.text, changed=True)
            continue
        if entry.k is not None:
            places[entry.k] = len(made)
        made.append(_mine(entry, got, words))
    return made


def after(shown: Sequence[Mine | Ours], key: str) -> Sequence[Mine | Ours] | None:
    """The bubbles that follow the one of this key; None where there is none of this key."""
    keys = [bubble.key for bubble in shown]
    return shown[keys.index(key) + 1 :] if key in keys else None


def language_of(entries: Iterable[Heard | Letter]) -> str | None:
    """The language of the newest message the person got."""
    said = [entry.say.language for entry in entries if isinstance(entry, Letter)]
    return said[-1] if said else None


def picture_alt(picture: Picture, words: Words) -> str:
    """What a picture shows, in words."""
    if picture.order is not None:
        return words("web.picture_of_copy")
    title, landmarks = f"{picture.name}.title", f"{picture.name}.from_to"
    if picture.request is not None or not words.has(title):
        return words("web.picture_of_cage")
    shown = words("web.picture", title=words(title))
    return f"{shown}. {words(landmarks)}" if words.has(landmarks) else shown


def _ours(letter: Letter, message: Message, renderer: Renderer) -> Ours:
    picture = message.picture
    return Ours(
        key=f"o{letter.seq}",
        seq=letter.seq,
        k=letter.k,
        html=Markup(message.html),  # noqa: S704 - the presenter escapes every value
        buttons=message.buttons,
        picture=picture,
        picture_size=_size(renderer.png(picture, letter.say.language)) if picture else None,
        alt=picture_alt(picture, Words(letter.say.language)) if picture else "",
        paper=_paper(message.document, Words(letter.say.language)),
    )


def _paper(document: Document | None, words: Words) -> str:
    if document is None:
        return ""
    return words("paper.measuring" if document.order is None else "paper.copy")


def _mine(heard: Heard, got: Sequence[tuple[int | None, Message]], words: Words) -> Mine:
    event, key = heard.event, f"i{heard.seq}"
    if isinstance(event, Choose):
        return Mine(key, _label(event, got))
    if isinstance(event, Photo):
        return Mine(key, event.caption, photo=event.photo)
    if isinstance(event, Edit):
        return Mine(key, event.text, changed=True)
    if not isinstance(event, Text):
        return Mine(key, "…")
    command = f"web.menu.{event.text.strip().removeprefix('/')}"
    if event.text.strip().startswith("/") and words.has(command):
        return Mine(key, words(command))
    return Mine(key, event.text, k=heard.k)


def _label(event: Choose, got: Sequence[tuple[int | None, Message]]) -> str:
    """The label of the button that was tapped, as it was shown."""
    shown = [message for k, message in got if event.of is None or k == event.of]
    buttons = chain.from_iterable(message.buttons for message in reversed(shown))
    return next((button.label for button in buttons if button.id == event.choice), event.choice)


def _size(png: bytes) -> tuple[int, int]:
    """Width and height of a PNG [pixels]: they stand at the same place in each."""
    width, height = struct.unpack(">II", png[16:24])
    return int(width), int(height)
