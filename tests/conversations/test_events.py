"""Events are stored as they came and come back the same."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from pydantic import ValidationError

from conversations.events import (
    Choose,
    Desk,
    DeskVerb,
    Due,
    Edit,
    Event,
    Photo,
    Text,
    Voice,
    event_from_json,
)

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
EVENTS: list[Event] = [
    Text(id="1", person="anna", at=NOW, text="36,1 <b>cm</b> ½", reply_to=4, language_hint="pl-PL"),
    Choose(id="2", person="anna", at=NOW, choice="isolate", of=2),
    Photo(id="3", person="anna", at=NOW, photo="0" * 64, caption="360", reply_to=1),
    Voice(id="4", person="anna", at=NOW),
    Edit(id="5", person="anna", at=NOW, message=3, text="365"),
    Due(id="6", person="anna", at=NOW, what="notebook-1"),
    Desk(
        id="7", person="anna", at=NOW, by="maria", verb=DeskVerb.TURN_DOWN, number="48291742",
        version=2, measure="side_to_side", note="zu groß",
    ),
]  # fmt: skip


@pytest.mark.parametrize("event", EVENTS, ids=lambda event: event.kind)
def test_an_event_comes_back_from_json_the_same(event: Event) -> None:
    """What is kept before it is worked off is what is worked off."""
    assert event_from_json(event.model_dump_json()) == event


@pytest.mark.parametrize(
    "text",
    [
        '{"kind": "shout", "id": "1", "person": "anna", "at": "2026-03-02T09:00:00Z"}',
        '{"kind": "voice", "id": "1", "person": "anna", "at": "2026-03-02T09:00:00Z", "x": 1}',
        '{"kind": "text", "id": "1", "person": "anna", "at": "2026-03-02T09:00:00Z"}',
        "{",
    ],
)
def test_what_is_no_event_is_refused(text: str) -> None:
    """An unknown kind, an unknown field, a missing one, broken JSON: none is half understood."""
    with pytest.raises(ValidationError):
        event_from_json(text)


def test_an_event_does_not_change() -> None:
    """What happened has happened."""
    with pytest.raises(ValidationError, match="frozen"):
        EVENTS[0].person = "bea"


def test_the_verbs_of_the_desk_keep_their_names() -> None:
    """Scripts and people's habits rely on them."""
    assert [verb.value for verb in DeskVerb] == [
        "take", "ask", "clear", "change", "turn-down", "hand-on", "hold", "bench", "made",
        "posted", "note", "fit",
    ]  # fmt: skip
