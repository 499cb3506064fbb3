"""Raw updates become events; what cannot be understood is left aside."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.telegram.inbound import (
    Aside,
    Directory,
    Group,
    Happened,
    Left,
    Picture,
    Unknown,
    incoming,
)
from conversations.events import Choose, Edit, Text, Unusable, Voice

DIRECTORY = Directory(
    person=lambda user: f"tg-{user}",
    said=lambda event: 3 if event == "tg-7 m30" else None,
    heard=lambda person, ref: 5 if (person, ref) == ("tg-7", "50") else None,
    choice=lambda person, k, place: "isolate" if (person, k, place) == ("tg-7", 2, 0) else None,
)
SENDER = {"id": 7, "is_bot": False, "first_name": "Anna", "language_code": "pl"}
CHAT = {"id": 7, "type": "private"}


def message(**content: Any) -> dict[str, Any]:
    """A message of Anna's."""
    base = {"message_id": 30, "date": 1_772_442_000, "chat": CHAT, "from": SENDER}
    return {"update_id": 1, "message": {**base, **content}}


def event_of(update: dict[str, Any]) -> Any:
    """The event of an update that is one."""
    found = incoming(update, DIRECTORY)
    assert isinstance(found, Happened)
    return found.event


def test_words_keep_who_when_and_what_they_reply_to() -> None:
    """The id is that of the message, so that a repeat is known whatever the update's id is."""
    event = event_of(message(text="36,1", reply_to_message={"message_id": 50}))
    assert isinstance(event, Text)
    assert (event.text, event.person, event.reply_to) == ("36,1", "tg-7", 5)
    assert (event.id, event.language_hint) == ("tg-7 m30", "pl")
    assert event.at.isoformat() == "2026-03-02T09:00:00+00:00"
    again = {**message(text="36,1"), "update_id": 999}
    assert event_of(again).id == event.id


def test_the_largest_form_of_a_photo_that_can_be_fetched_is_taken() -> None:
    """Over 20 MB cannot be fetched (Bot API, getFile)."""
    sizes = [
        {"file_id": "small", "width": 90, "height": 60, "file_size": 1000},
        {"file_id": "large", "width": 1280, "height": 960, "file_size": 200_000},
        {"file_id": "huge", "width": 9000, "height": 9000, "file_size": 30_000_000},
    ]
    found = incoming(message(photo=sizes, caption="361", media_group_id="a"), DIRECTORY)
    assert isinstance(found, Picture)
    assert (found.file, found.event.caption, found.event.album) == ("large", "361", "a")


def test_a_picture_sent_as_a_file_is_a_picture() -> None:
    """Another file is not; one that is too big is said to be a photo that did not come."""
    picture = {"file_id": "f", "mime_type": "image/png", "file_size": 10}
    assert isinstance(incoming(message(document=picture), DIRECTORY), Picture)
    text = {"file_id": "f", "mime_type": "text/plain", "file_size": 10}
    assert isinstance(event_of(message(document=text)), Unusable)
    big = {**picture, "file_size": 30_000_000}
    assert event_of(message(document=big)).what == "photo"


@pytest.mark.parametrize("kind", ["voice", "audio", "video_note"])
def test_what_is_to_be_heard_is_a_voice_note(kind: str) -> None:
    """Nobody listens to it; the person is told."""
    assert isinstance(event_of(message(**{kind: {"file_id": "v"}})), Voice)


def test_a_shared_telephone_number_is_words() -> None:
    """So that it can answer how to reach somebody."""
    shared = {"phone_number": "+48600100200", "first_name": "Anna"}
    assert event_of(message(contact=shared)).text == "Anna +48600100200"


def test_an_edit_names_the_message_it_changes() -> None:
    """By the count the person's messages have; one we never saw is said to be unknown."""
    body = {**message(text="365")["message"], "edit_date": 1_772_442_060}
    event = event_of({"update_id": 2, "edited_message": body})
    assert isinstance(event, Edit)
    assert (event.message, event.text) == (3, "365")
    unknown = {"update_id": 2, "edited_message": {**body, "message_id": 31}}
    assert incoming(unknown, DIRECTORY) == Unknown(7, "tg-7")


@pytest.mark.parametrize(
    ("data", "choice", "of"),
    [("1:2:0", "isolate", 2), ("1:2:1", "gone", None), ("9:2:0", "gone", None), ("", "gone", None)],
)
def test_a_tap_is_looked_up_and_never_believed(data: str, choice: str, of: int | None) -> None:
    """What no message of this person offers is a tap on something that is gone."""
    message_ = {"message_id": 50, "date": 1, "chat": CHAT}
    query = {"id": "q1", "from": SENDER, "data": data, "message": message_, "chat_instance": "1"}
    found = incoming({"update_id": 3, "callback_query": query}, DIRECTORY)
    assert isinstance(found, Happened)
    assert isinstance(found.event, Choose)
    assert (found.event.choice, found.event.of, found.tapped) == (choice, of, "q1")


def test_groups_bots_and_channels_are_no_customers() -> None:
    """A group is refused, a bot and an anonymous sender are left aside."""
    assert incoming(message(text="hi", chat={"id": -5, "type": "group"}), DIRECTORY) == Group(
        -5, "pl"
    )
    bot = {**SENDER, "is_bot": True}
    assert incoming({"message": {**message(text="x")["message"], "from": bot}}, DIRECTORY) == Aside(
        "not-a-person"
    )
    anonymous = message(text="x", sender_chat={"id": -5})
    assert incoming(anonymous, DIRECTORY) == Aside("not-a-person")


def test_who_blocks_us_has_left() -> None:
    """And who comes back has not."""
    change = {"chat": CHAT, "from": SENDER, "new_chat_member": {"status": "kicked"}}
    assert incoming({"my_chat_member": change}, DIRECTORY) == Left("tg-7")
    back = {**change, "new_chat_member": {"status": "member"}}
    assert incoming({"my_chat_member": back}, DIRECTORY) == Aside("membership")


SHAPES = st.recursive(
    st.none() | st.booleans() | st.integers(-9, 9) | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(
                ["message", "chat", "from", "text", "photo", "type", "id", "date", "document"]
            ),
            inner,
            max_size=5,
        )
    ),
    max_leaves=12,
)


@given(st.dictionaries(st.sampled_from(["message", "edited_message", "callback_query"]), SHAPES))
def test_no_shape_of_update_raises(update: dict[str, Any]) -> None:
    """Whatever comes, the updates after it have their turn."""
    assert incoming(update, DIRECTORY) is not None
