"""Forms that were posted."""

from __future__ import annotations

from typing import Any

import pytest
from starlette.datastructures import FormData

from bot.channels.web.identity import fresh_visitor
from bot.channels.web.posted import TEXT_AT_MOST, desk_event, edit_event, most, value
from bot.channels.web.signed_in import SignedIn
from bot.channels.web.trouble import Trouble
from conversations.review import Role


def test_only_the_form_with_a_photo_may_be_long() -> None:
    """Twenty megabytes where photos are sent, a page of text everywhere else."""
    assert most("/chat/send") > 20 * 1024 * 1024
    assert {most(path) for path in ("/chat/edit", "/desk/order/1", "/")} == {64 * 1024}


def test_a_field_is_text_or_empty() -> None:
    """What is missing is empty, what is too long is refused."""
    form = FormData([("text", "x" * TEXT_AT_MOST), ("long", "x" * (TEXT_AT_MOST + 1))])
    assert len(value(form, "text")) == TEXT_AT_MOST
    assert value(form, "nothing") == ""
    with pytest.raises(Trouble, match="long"):
        value(form, "long")


@pytest.mark.parametrize(
    "fields",
    [
        {"message": "1"},
        {"message": "1", "text": "  "},
        {"text": "361"},
        {"message": "one", "text": "361"},
        {"message": "-1", "text": "361"},
        {"message": "٣", "text": "361"},
        {"message": "1" * 30, "text": "361"},
    ],
    ids=str,
)
def test_an_edit_without_words_or_number_is_none(site: Any, fields: dict[str, str]) -> None:
    """Nothing is guessed."""
    assert edit_event(site.parts, fresh_visitor(), FormData(list(fields.items()))) is None


def test_an_edit_names_the_message_and_its_new_words(site: Any) -> None:
    """The id of the event is bound to the person."""
    who = fresh_visitor()
    form = FormData([("message", "3"), ("text", " 361 "), ("id", "a-message-key")])
    event = edit_event(site.parts, who, form)
    assert event is not None
    assert event.id == f"{who.person}:a-message-key"
    assert event.model_dump(include={"message", "text"}) == {"message": 3, "text": "361"}


def test_a_choice_names_the_message_it_belongs_to(visitor: Any, site: Any) -> None:
    """A button of an older message is known as one."""
    visitor.begin()
    old = visitor.forms()
    visitor.tap("isolate")
    form = [one for one in old if ("choice", "isolate") in one.buttons][-1]
    form.fields["id"] = "a-later-tap"
    visitor.post(form, choice="introduce")
    assert "Only the queen" in visitor.open()
    assert "Change it" in visitor.page.text


@pytest.mark.parametrize(
    ("verb", "version"), [("dance", "1"), ("clear", "one"), ("clear", "٣"), ("clear", "1" * 30)]
)
def test_what_the_desk_does_is_taken_whole_or_not_at_all(
    site: Any, verb: str, version: str
) -> None:
    """A verb we know and a version that is a number; nothing is guessed."""
    who = SignedIn("maria", fresh_visitor(), "en", Role.DESK)
    with pytest.raises(Trouble, match="form"):
        desk_event(site.parts, who, "48291742", FormData([("verb", verb), ("version", version)]))


def test_what_the_desk_does_carries_who_does_it(site: Any) -> None:
    """From the pass, never from the form."""
    who = SignedIn("maria", fresh_visitor(), "en", Role.DESK)
    form = FormData([
        ("id", "12345678"), ("verb", "turn-down"), ("version", "2"), ("by", "mallory"),
        ("note", " Too wide. "), ("would_work", " A rim. "),
    ])  # fmt: skip
    event = desk_event(site.parts, who, "48291742", form)
    assert (event.by, event.person, event.id) == ("maria", "desk:maria", "desk:maria:12345678")
    assert (event.version, event.note, event.would_work) == (2, "Too wide.", "A rim.")
