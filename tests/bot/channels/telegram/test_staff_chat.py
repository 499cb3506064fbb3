"""What staff tap and type, read without believing it."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.telegram.staff_chat import Reading, measures, read_tap, read_words, typed
from conversations.events import DeskVerb

NUMBER = "48291742"
BASE: dict[str, Any] = {
    "id": "x", "person": "desk:maria", "by": "maria", "at": datetime(2026, 3, 2, tzinfo=UTC),
}  # fmt: skip


def test_a_tap_names_verb_number_and_version() -> None:
    """And the measure, once it was chosen."""
    event = read_tap(f"d1:clear:{NUMBER}:3", BASE).event
    assert event is not None
    assert (event.verb, event.number, event.version) == ("clear", NUMBER, 3)
    assert read_tap(f"d1:ask:{NUMBER}:3", BASE) == Reading(choose=(NUMBER, 3))
    asked = read_tap(f"d1:ask:{NUMBER}:3:lug_room", BASE).event
    assert asked is not None
    assert asked.measure == "lug_room"
    assert read_tap(f"d1:turn-down:{NUMBER}:3", BASE).words == (DeskVerb.TURN_DOWN, NUMBER)


@pytest.mark.parametrize(
    ("text", "verb", "version", "measure", "note"),
    [
        (f"take {NUMBER}", "take", None, None, ""),
        ("/clear 482 917 42 v2", "clear", 2, None, ""),
        (
            "ask 48291742 side_to_side outside, please",
            "ask",
            None,
            "side_to_side",
            "outside, please",
        ),
        ("Turndown 482-917-42 too small", "turn-down", None, None, "too small"),
    ],
)
def test_words_name_the_same(
    text: str, verb: str, version: int | None, measure: str | None, note: str
) -> None:
    """With the number as people write it."""
    event = read_words(text, BASE).event
    assert event is not None
    assert (event.verb, event.number) == (verb, NUMBER)
    assert (event.version, event.measure, event.note) == (version, measure, note)


def test_a_number_shows_its_order_and_queue_shows_all() -> None:
    """A number with a wrong check digit is no number."""
    assert read_words("482 917 42", BASE) == Reading(show=NUMBER)
    assert read_words("queue", BASE) == Reading(queue=True)
    assert read_words("482 917 43", BASE) == Reading()
    assert read_words("clear 48291743", BASE) == Reading()


def test_a_line_that_begins_with_plus_says_what_would_work() -> None:
    """The words before it are the reason; a plus inside a line is a plus."""
    event = read_words(f"turndown {NUMBER} 5 + 5 is too thick\n+ A frame\nof 25 mm", BASE).event
    assert event is not None
    assert (event.note, event.would_work) == ("5 + 5 is too thick", "A frame\nof 25 mm")
    alone = read_words(f"turndown {NUMBER} + A frame of 25 mm", BASE).event
    assert alone is not None
    assert (alone.note, alone.would_work) == ("", "A frame of 25 mm")


@given(st.text(max_size=80))
def test_no_text_raises(text: str) -> None:
    """What is not understood brings help."""
    assert isinstance(read_words(text, BASE), Reading)
    assert isinstance(read_tap(text, BASE), Reading)


def test_buttons_fit_into_64_bytes() -> None:
    """Bot API, InlineKeyboardButton."""
    rows = measures(NUMBER, 9999, "en").inline_keyboard
    assert all(len(str(one.callback_data).encode()) <= 64 for row in rows for one in row)


def test_what_is_to_be_typed_can_be_read() -> None:
    """The hint itself, with words in place of the dots."""
    for verb in (DeskVerb.TURN_DOWN, DeskVerb.NOTE):
        event = read_words(typed(verb, NUMBER).replace("…", "because"), BASE).event
        assert event is not None
        assert (event.verb, event.note) == (verb, "because")
