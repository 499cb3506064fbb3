"""The number of the next order."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from bot.storage.errors import InconsistentError
from bot.storage.numbers import next_number, redraw
from conversations.reference import complete, is_valid

if TYPE_CHECKING:
    from bot.storage.database import Database
    from tests.bot.conftest import Shop


class Drawn:
    """Gives these payloads and then the last one for ever."""

    def __init__(self, *payloads: int) -> None:
        self._payloads: Iterator[int] = iter(payloads)
        self._last = payloads[-1]

    def payload(self) -> int:
        """The next one."""
        return next(self._payloads, self._last)


def test_the_kept_number_stays_until_it_is_used(database: Database) -> None:
    """Asking twice draws once."""
    with database.transaction() as connection:
        first = next_number(connection, Drawn(482917))
        assert is_valid(first)
        assert next_number(connection, Drawn(123456)) == first


def test_numbers_that_are_hard_to_read_out_are_left_out(database: Database) -> None:
    """A payload that gives no number is drawn again."""
    assert complete(111222) is None
    with database.transaction() as connection:
        assert next_number(connection, Drawn(111222, 482917)) == complete(482917)


def test_a_number_that_an_order_has_is_not_given_again(shop: Shop) -> None:
    """A payload that was drawn before is drawn again."""
    shop.send("order")
    [(taken,)] = shop.rows("SELECT number FROM orders")
    payload = int(str(taken)[:6])
    with shop.database.transaction() as connection:
        assert redraw(connection, Drawn(payload, 482917)) == complete(482917)


def test_a_broken_chance_is_found_out(database: Database) -> None:
    """Drawing ends even where no draw will do."""
    with pytest.raises(InconsistentError), database.transaction() as connection:
        next_number(connection, Drawn(111222))
