"""The newest things in the database."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from bot.storage import newest

if TYPE_CHECKING:
    from tests.bot.conftest import Shop


def test_nothing_happened_yet(shop: Shop) -> None:
    """No event and no moment in an empty database."""
    with shop.database.reading() as connection:
        assert newest.event(connection) == 0
        assert newest.newest_moment(connection) is None


def test_the_last_event_and_its_moment_are_known(shop: Shop) -> None:
    """Both go on with what happens."""
    shop.send("say one")
    shop.clock.advance(timedelta(hours=1))
    shop.send("say two")
    with shop.database.reading() as connection:
        assert newest.event(connection) == 2
        assert newest.newest_moment(connection) == shop.clock.now()
