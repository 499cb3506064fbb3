"""What chats of staff need kept."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest

from bot.storage import staff, staff_chats
from bot.storage.staff_chats import Card, Wanted

WANTED = Wanted("note", "48291742", 1)


@pytest.fixture
def crew(shop: Any) -> Any:
    """An order and two members of staff with addresses."""
    shop.send("order")
    shop.number = shop.rows("SELECT number FROM orders")[0][0]
    with shop.database.transaction() as connection:
        for name in ("maria", "jan"):
            staff.invite(connection, shop.database.sealer, name, "desk", name, shop.clock.now())
            staff.bind(connection, name, f"at-{name}")
    return shop


def test_words_are_used_by_one_message_however_often_it_comes(shop: Any) -> None:
    """A kill between keeping and confirming brings the same message again, never another."""
    now = shop.clock.now()
    with shop.database.transaction() as connection:
        assert staff_chats.use_words(connection, "at-maria", "m1", now) is None
        staff_chats.await_words(connection, "at-maria", WANTED, now)
        assert staff_chats.use_words(connection, "at-jan", "m1", now) is None
        for _ in range(2):
            assert staff_chats.use_words(connection, "at-maria", "m2", now) == WANTED
        assert staff_chats.use_words(connection, "at-maria", "m3", now) is None


def test_words_are_waited_for_half_an_hour_and_no_longer(shop: Any) -> None:
    """Nor after something else was done."""
    now = shop.clock.now()
    with shop.database.transaction() as connection:
        staff_chats.await_words(connection, "at-maria", WANTED, now)
        late = now + staff_chats.WAITS + timedelta(seconds=1)
        assert staff_chats.use_words(connection, "at-maria", "m1", late) is None
        staff_chats.wait_no_more(connection, "at-maria")
        assert staff_chats.use_words(connection, "at-maria", "m1", now) is None


def test_a_card_is_outdated_when_its_order_went_on_or_a_newer_one_shows_it(crew: Any) -> None:
    """Or when who has it left."""
    with crew.database.transaction() as connection:
        for person, message in (("at-maria", 1), ("at-maria", 5), ("at-jan", 3)):
            staff_chats.keep_card(connection, person, message, crew.number, 1, "handed-in")
        older = Card("at-maria", 1, crew.number, last=False, here=True)
        assert staff_chats.outdated(connection) == [older]
        staff_chats.drop_card(connection, older)
        assert staff_chats.outdated(connection) == []
        connection.execute("UPDATE orders SET stage = 'cleared'")
        staff.remove(connection, "jan", crew.clock.now())
        gone, newest = staff_chats.outdated(connection)
        assert gone == Card("at-jan", 3, crew.number, last=True, here=False)
        assert newest == Card("at-maria", 5, crew.number, last=True, here=True)
        staff_chats.update_card(connection, newest, 1, "cleared")
        assert staff_chats.outdated(connection) == [gone]
