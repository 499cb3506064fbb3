"""What a turn wants done, done."""

from __future__ import annotations

from typing import TYPE_CHECKING, get_args

from bot.storage import effects
from conversations.effects import Effect

if TYPE_CHECKING:
    from tests.bot.conftest import Shop


def test_every_kind_of_effect_is_done() -> None:
    """A new kind of effect cannot be forgotten."""
    union, *_ = get_args(Effect)
    assert set(effects._DOERS) == set(get_args(union))


def test_messages_are_counted_for_the_person_alone(shop: Shop) -> None:
    """What goes to the desk is no message the person received."""
    shop.send("say one; desk two; say three")
    assert shop.rows("SELECT to_person, k FROM outbox") == [
        ("anna", 1),
        ("desk", None),
        ("anna", 2),
    ]


def test_a_message_knows_the_event_it_answers(shop: Shop) -> None:
    """So a conversation can be told in order."""
    shop.send("say one")
    shop.send("say two")
    assert shop.rows("SELECT event_seq FROM outbox") == [(1,), (2,)]
