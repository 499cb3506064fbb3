"""The journal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bot.storage import audit
from conversations.events import DeskVerb

if TYPE_CHECKING:
    from tests.bot.conftest import Shop


def test_the_stages_of_an_order_are_told_in_order(shop: Shop) -> None:
    """Each with who brought it there, when, and at which version."""
    shop.send("order")
    [(number,)] = shop.rows("SELECT number FROM orders")
    shop.service.receive(shop.desk(DeskVerb.TAKE, str(number)), "talk")
    shop.send("journal looked")
    with shop.database.reading() as connection:
        stages = audit.stages_of(connection, str(number))
    at = "2026-03-02T09:00:00.000Z"
    assert stages == [
        {"stage": "handed-in", "at": at, "by": "beekeeper", "version": 1},
        {"stage": "take", "at": at, "by": "maria", "version": 1},
    ]


def test_a_line_names_the_person_it_is_about(shop: Shop) -> None:
    """Also where there is no order yet."""
    shop.send("journal looked")
    assert shop.rows("SELECT what, by, person, number FROM audit") == [
        ("looked", "beekeeper", "anna", None)
    ]
