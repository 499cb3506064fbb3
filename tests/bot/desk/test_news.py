"""What staff were told."""

from __future__ import annotations

from typing import Any

from bot.desk.news import answer_to, latest
from conversations.effects import Free
from conversations.events import DeskVerb


def test_the_newest_message_comes_first(shop: Any) -> None:
    """Only messages to all staff, and only the last few."""
    shop.send("say hello")
    for count in range(5):
        shop.send(f"desk message {count}")
    values = [letter.say.lines[0].values["text"] for letter in latest(shop.database, most=3)]
    assert values == [Free(text=f"message {count}") for count in (4, 3, 2)]


def test_without_messages_there_is_no_news(shop: Any) -> None:
    """An empty workshop is quiet."""
    assert latest(shop.database) == []


def test_each_act_has_its_own_answer(shop: Any) -> None:
    """Also where two acts of one person arrive at once, or the same act arrives twice."""
    shop.send("order")
    ((number,),) = shop.rows("SELECT number FROM orders")
    acts = [shop.desk(DeskVerb.CLEAR, number) for _ in range(2)]
    for act in (*acts, acts[0]):
        shop.service.receive(act, "desk")
    found = [answer_to(shop.database, act.id, "desk:maria") for act in acts]
    assert found == [letter.seq for letter in shop.outbox.since("desk:maria")]
    assert answer_to(shop.database, acts[0].id, "desk:jon") is None
    assert answer_to(shop.database, "never happened", "desk:maria") is None
