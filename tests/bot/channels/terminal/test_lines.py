"""One line of a script: an event, or an error that names the field."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from bot.channels.terminal.lines import LineError, duration, event_of, moment_of, parsed
from conversations.events import Choose, Desk, Edit, Event, Photo, Text, Voice

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)


def event(**row: Any) -> Event:
    """The event of a line; photos are kept under their own name."""
    return event_of(row, NOW, "line-1", lambda file, person: f"{file} of {person}")


@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("P3D", timedelta(days=3)),
        ("PT2H30M", timedelta(hours=2, minutes=30)),
        ("P1W", timedelta(days=7)),
        ("P1DT1S", timedelta(days=1, seconds=1)),
    ],
)
def test_durations_are_read_as_iso_8601_writes_them(text: str, span: timedelta) -> None:
    """Weeks, days, hours, minutes and seconds (ISO 8601:2004, 4.4.3.2)."""
    assert duration(text) == span


@pytest.mark.parametrize("text", ["P", "3D", "P3", "PT", "P1M", "", "P-1D"])
def test_other_durations_are_refused(text: str) -> None:
    """The error names the field and says what would do."""
    with pytest.raises(LineError) as refused:
        duration(text)
    assert refused.value.field == "advance"
    assert "P3D" in str(refused.value)


def test_a_moment_without_zone_is_utc_and_others_are_turned_into_it() -> None:
    """All moments inside are UTC."""
    assert moment_of("2026-03-02T09:00:00") == NOW
    assert moment_of("2026-03-02T10:00:00+01:00") == NOW
    with pytest.raises(LineError, match="at: a moment like"):
        moment_of("yesterday")


def test_each_form_becomes_its_event() -> None:
    """Text, choice, photo, voice, edit and desk action."""
    assert isinstance(event(**{"from": "anna", "text": "36,1", "reply_to": 3}), Text)
    assert isinstance(event(**{"from": "anna", "choose": "yes", "of": 4}), Choose)
    assert isinstance(event(**{"from": "anna", "voice": "f.ogg"}), Voice)
    assert isinstance(event(**{"from": "anna", "edit": 3, "text": "365"}), Edit)
    photo = event(**{"from": "anna", "photo": "f.jpg", "text": "36,1"})
    assert isinstance(photo, Photo)
    assert (photo.photo, photo.caption) == ("f.jpg of anna", "36,1")
    desk = event(**{"from": "desk:maria", "do": "ask", "number": "48291742",
                    "measure": "side_to_side", "version": 1, "note": "outside"})  # fmt: skip
    assert isinstance(desk, Desk)
    assert (desk.by, desk.verb, desk.version) == ("maria", "ask", 1)
    desk = event(**{"from": "desk:maria", "do": "turn-down", "number": "48291742",
                    "note": "too thick", "would_work": "a rim"})  # fmt: skip
    assert isinstance(desk, Desk)
    assert (desk.note, desk.would_work) == ("too thick", "a rim")


def test_an_id_of_its_own_wins_over_the_line() -> None:
    """So that a program can say the same event twice."""
    assert event(**{"from": "anna", "text": "x"}).id == "line-1"
    assert event(**{"from": "anna", "text": "x", "id": "mine"}).id == "mine"


@pytest.mark.parametrize(
    ("row", "field"),
    [
        ({"text": "36"}, "from"),
        ({"from": "", "text": "36"}, "from"),
        ({"from": "anna"}, "line"),
        ({"from": "anna", "text": 36}, "text"),
        ({"from": "anna", "text": "36", "colour": "red"}, "colour"),
        ({"from": "anna", "edit": "third", "text": "36"}, "edit"),
        ({"from": "desk:maria", "do": "burn", "number": "48291742"}, "do"),
        ({"from": "desk:maria", "do": "ask", "number": "48291742"}, "measure"),
        ({"from": "desk:maria", "do": "take"}, "number"),
    ],
)
def test_a_line_that_cannot_be_used_names_the_field(row: dict[str, Any], field: str) -> None:
    """Nothing is guessed."""
    with pytest.raises(LineError) as refused:
        event(**row)
    assert refused.value.field.split(".")[-1] == field


@pytest.mark.parametrize("line", ["nonsense", "[1]", "{", '"text"', "12"])
def test_what_is_no_json_object_is_refused(line: str) -> None:
    """The error says so."""
    with pytest.raises(LineError, match="line: "):
        parsed(line)


def test_a_json_object_is_taken_whole() -> None:
    """As it stands."""
    assert parsed(json.dumps({"from": "anna"})) == {"from": "anna"}
