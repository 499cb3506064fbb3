"""What staff tap and type, read without believing it."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.telegram.staff_words import Reading, read_tap, read_words, spoken, with_words
from bot.desk.asking import MEASURES
from bot.storage.staff_chats import Wanted
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
    assert read_tap(f"d1:ask:{NUMBER}:3:lug_room", BASE).words == Wanted(
        "ask", NUMBER, 3, "lug_room"
    )
    asked = read_tap(f"d1:alone:{NUMBER}:3:lug_room", BASE).event
    assert asked is not None
    assert (asked.verb, asked.measure, asked.note) == ("ask", "lug_room", "")
    assert read_tap(f"d1:turn-down:{NUMBER}:3", BASE).words == Wanted("turn-down", NUMBER, 3)
    assert read_tap("d1:leave", BASE) == Reading(leave=True)


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
        ("turn down 48291742 too small", "turn-down", None, None, "too small"),
        ("Odmów 48291742 za mała", "turn-down", None, None, "za mała"),
        ("zatwierdz 48291742 v2", "clear", 2, None, ""),
        ("ask 48291742 Side to side: outside", "ask", None, "side_to_side", "outside"),
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


@pytest.mark.parametrize("verb", [DeskVerb.TURN_DOWN, DeskVerb.NOTE])
@pytest.mark.parametrize("language", ["en", "pl"])
def test_a_verb_without_its_words_asks_for_them(verb: DeskVerb, language: str) -> None:
    """In the word of each language; what comes next is taken as the words."""
    line = f"{spoken(verb.value, language)} {NUMBER}"
    wanted = read_words(line, BASE).words
    assert wanted == Wanted(verb.value, NUMBER, None)
    assert wanted is not None
    event = with_words(wanted, "because", BASE)
    assert (event.verb, event.note) == (verb, "because")


def test_a_question_without_its_measure_asks_for_it() -> None:
    """The list of measures is shown; nothing is sent."""
    assert read_words(f"ask {NUMBER} please", BASE) == Reading(choose=(NUMBER, None))


def test_the_queue_has_a_word_in_every_language() -> None:
    """And is what /start shows."""
    for word in ("queue", "Kolejka", "zamowienia", "/start"):
        assert read_words(word, BASE) == Reading(queue=True), word


def test_every_measure_of_the_page_can_be_asked_for() -> None:
    """By a tap."""
    for measure in MEASURES:
        event = read_tap(f"d1:alone:{NUMBER}:1:{measure}", BASE).event
        assert event is not None
        assert event.measure == measure
