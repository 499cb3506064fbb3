"""Forms that were posted."""

from __future__ import annotations

from typing import Any

import pytest
from starlette.datastructures import FormData

from bot.channels.web.identity import fresh_visitor
from bot.channels.web.posted import TEXT_AT_MOST, edit_event, most, value
from bot.channels.web.trouble import Trouble


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
