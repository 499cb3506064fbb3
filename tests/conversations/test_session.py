"""What is remembered between two messages."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction

import pytest
from player import Player
from pydantic import ValidationError

from conversations.session import LEDGER, VERSION, Asking, Session, load, upgrade
from conversations.steps import Asker, Mode, Step


def test_a_session_in_the_middle_of_everything_comes_back_the_same(
    played: Callable[[str], Player], session_of: Callable[[Player], Session], handed_in: str
) -> None:
    """With an order, a question of the desk, a notebook, a proposal and photos."""
    player = played(
        f"{handed_in}desk:maria> ask lug_room v1\ndesk:maria> ask ledge_up v1\n"
        "anna> new order\nanna> [isolate]\nanna> (photo)\nanna> 14 1/3 in\nanna> 393 cm\n"
    )
    session = session_of(player)
    assert session.errands
    assert load(session.model_dump_json()) == session
    assert load(session.model_dump_json().encode()) == session


def test_lengths_stay_exact() -> None:
    """A third of an inch is not rounded on its way through the database."""
    session = Session(person="anna", asking=Asking(values=(Fraction(127, 15),)))
    assert load(session.model_dump_json()).asking.values == (Fraction(127, 15),)


def test_a_session_of_a_newer_program_is_refused() -> None:
    """Rather than be read as something it is not."""
    data = json.loads(Session(person="anna").model_dump_json())
    data["schema_version"] = VERSION + 1
    with pytest.raises(ValueError, match=str(VERSION + 1)):
        load(json.dumps(data))


def test_a_session_without_a_version_is_of_the_first_one() -> None:
    """Nothing is changed in one of today."""
    assert upgrade({"person": "anna"}) == {"person": "anna"}
    assert load('{"person": "anna"}') == Session(person="anna")


def test_an_unknown_field_is_refused() -> None:
    """It would be lost with the next message."""
    with pytest.raises(ValidationError):
        load('{"person": "anna", "mood": "good"}')


def test_asking_plainly_forgets_what_was_made_of_the_last_answer() -> None:
    """The question, who asks it and how often it was tried stay."""
    asking = Asking(
        step=Step.LUG_ROOM, asker=Asker.DESK, mode=Mode.PROPOSE, steps=(Step.LUG_ROOM,),
        values=(Fraction(393),), options=("393 cm",), raw="393 cm", tries=2, helped=True,
        number="48291742",
    )  # fmt: skip
    assert asking.plain() == Asking(
        step=Step.LUG_ROOM, asker=Asker.DESK, tries=2, helped=True, number="48291742"
    )


def test_the_ledger_of_messages_does_not_grow_without_end(
    played: Callable[[str], Player], session_of: Callable[[Player], Session]
) -> None:
    """The newest stay, and their count goes on."""
    chat = "anna> hello\nanna> [en]\nanna> [isolate]\nanna> [dont-know]\n"
    session = session_of(played(chat + "anna> 360\nanna> (edit 2) 361\n" * (2 * LEDGER)))
    assert len(session.heard) == LEDGER
    assert session.heard[-1].k == session.heard_count > 2 * LEDGER
    assert len(session.said) <= LEDGER
