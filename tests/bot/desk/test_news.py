"""What the workshop was told lately."""

from __future__ import annotations

from typing import Any

from bot.desk.news import latest
from conversations.effects import Free


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
