"""The chat as bubbles."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest

from bot.channels.web.bubbles import MENU, Mine, Ours, after, bubbles, language_of, picture_alt
from bot.channels.web.page import Words
from bot.outbox import Letter
from bot.presenter import Presenter
from bot.storage.inbox import Heard
from conversations.effects import Choice, Document, Free, Line, Picture, Say
from conversations.events import Choose, Edit, Photo, Text, Voice
from conversations.locale import languages

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
COMMON: dict[str, Any] = {"id": "e", "person": "anna", "at": NOW}


class Painter:
    """Makes pictures that only have a size."""

    def png(self, picture: Picture, language: str) -> bytes:  # noqa: ARG002 - as the real one
        """Sixteen bytes before the size, as in every PNG."""
        return bytes(16) + (720).to_bytes(4, "big") + (405).to_bytes(4, "big")

    def pdf(self, document: Document, language: str) -> bytes:
        """Nothing here looks into a paper."""
        raise NotImplementedError(document, language)


def letter(seq: int, text: str, language: str = "en", **say: Any) -> Letter:
    """The `seq`-th message to anna."""
    line = Line(key="free", values={"text": Free(text=text)})
    said = Say(lines=(line,), language=language, **say)
    return Letter(
        seq=seq, to="anna", channel="web", k=seq, say=said, at=NOW, sent=True, attempts=0, event=1
    )


def heard(seq: int, k: int | None, event: Any) -> Heard:
    """Something anna sent."""
    return Heard(seq=seq, at=NOW, k=k, event=event)


def shown(*entries: Any, language: str = "en") -> list[Mine | Ours]:
    """The bubbles of these entries."""
    return bubbles(entries, Presenter(), Painter(), language)


def choice(identity: str, label: str) -> Choice:
    """A choice with this label."""
    return Choice(id=identity, label=Line(key="free", values={"text": Free(text=label)}))


def test_a_message_keeps_its_place_and_its_words() -> None:
    """Own and received messages stand in the order in which they were said."""
    first, second = shown(heard(4, 1, Text(text="36,1", **COMMON)), letter(9, "<b>hello"))
    assert isinstance(first, Mine)
    assert (first.key, first.text, first.k) == ("i4", "36,1", 1)
    assert isinstance(second, Ours)
    assert (second.key, second.html) == ("o9", "&lt;b&gt;hello")


def test_a_tap_shows_the_label_that_was_tapped() -> None:
    """The label of that message, and without a message of the newest that had the choice."""
    old = letter(1, "?", choices=(choice("yes", "Yes, 360"),))
    new = letter(2, "?", choices=(choice("yes", "Yes, 361"),))
    assert shown(old, new, heard(3, None, Choose(choice="yes", of=1, **COMMON)))[-1] == Mine(
        "i3", "Yes, 360"
    )
    assert shown(old, new, heard(3, None, Choose(choice="yes", **COMMON)))[-1] == Mine(
        "i3", "Yes, 361"
    )
    assert shown(heard(3, None, Choose(choice="gone", **COMMON))) == [Mine("i3", "gone")]


def test_an_edit_changes_the_message_at_its_place() -> None:
    """No bubble of its own, unless the message is no longer kept."""
    edit = heard(3, None, Edit(message=1, text="361", **COMMON))
    made = shown(heard(1, 1, Text(text="365", **COMMON)), letter(2, "365 mm"), edit)
    assert [bubble.key for bubble in made] == ["i1", "o2"]
    assert made[0] == Mine("i1", "361", k=1, changed=True)
    assert shown(edit) == [Mine("i3", "361", changed=True)]


def test_a_photo_and_a_voice_note_are_bubbles_too() -> None:
    """The photo by its name with its caption; a voice note as a sign that it came."""
    photo, voice = shown(
        heard(1, 1, Photo(photo="abc", caption="the lug", **COMMON)),
        heard(2, 2, Voice(**COMMON)),
    )
    assert photo == Mine("i1", "the lug", photo="abc")
    assert voice == Mine("i2", "…")


@pytest.mark.parametrize("language", languages())
def test_a_command_is_shown_by_its_name_in_the_menu(language: str) -> None:
    """Nobody sees strokes, and a command cannot be edited."""
    for command in (*MENU, "start"):
        (bubble,) = shown(heard(1, 1, Text(text=f"/{command}", **COMMON)), language=language)
        assert bubble == Mine("i1", Words(language)(f"web.menu.{command}"))
    (other,) = shown(heard(1, 1, Text(text="/dance", **COMMON)), language=language)
    assert other == Mine("i1", "/dance", k=1)


def test_a_picture_has_its_size_and_words() -> None:
    """The page keeps room for it, and whoever can't see it reads what it shows."""
    (bubble,) = shown(letter(1, "?", picture=Picture(name="lug_to_lug")))
    assert isinstance(bubble, Ours)
    assert bubble.picture_size == (720, 405)
    assert bubble.alt.startswith("Lug to lug: picture. ")
    assert picture_alt(Picture(name="cage"), Words("en")) == "Drawing of your cage with its sizes"


def test_what_comes_after_a_bubble() -> None:
    """The rest, nothing, or None where there is no such bubble."""
    made = shown(letter(1, "a"), letter(2, "b"))
    assert after(made, "o1") == made[1:]
    assert after(made, "o2") == []
    assert after(made, "o3") is None


def test_the_language_is_that_of_the_newest_message() -> None:
    """What the person was last spoken to in."""
    assert language_of([letter(1, "a", "en"), letter(2, "b", "pl")]) == "pl"
    assert language_of([heard(1, 1, Text(text="x", **COMMON))]) is None


def test_a_paper_that_came_along_has_its_name() -> None:
    """In the language of the message; without one there is nothing to fetch."""
    plain, sheet = shown(
        letter(1, "hello"),
        letter(2, "here", language="pl", document=Document(name="measuring-sheet")),
    )
    assert isinstance(plain, Ours)
    assert isinstance(sheet, Ours)
    assert (plain.paper, sheet.paper) == ("", "Zabierz do ula")
