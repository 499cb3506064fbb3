"""Orders with their versions, cages and findings."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest

from bot.storage import orders
from bot.storage.errors import InconsistentError
from conversations.effects import StageMoved
from conversations.events import DeskVerb

if TYPE_CHECKING:
    from tests.bot.conftest import Shop

LATER = "2026-03-02T10:00:00.000Z"


@pytest.fixture
def number(shop: Shop) -> str:
    """An order of Anna's."""
    shop.send("contact +48 601 234 567; order")
    [(number,)] = shop.rows("SELECT number FROM orders")
    return str(number)


def test_an_order_is_shown_as_the_contract_says(shop: Shop, number: str) -> None:
    """All fields, the contact opened, request and design as JSON values."""
    with shop.database.reading() as connection:
        shown = orders.shown(connection, shop.database.sealer, number)
    assert shown is not None
    assert list(shown) == [
        "number", "version", "stage", "person", "contact", "handed_in_at", "cages", "findings",
        "stages",
    ]  # fmt: skip
    assert shown["contact"] == "+48 601 234 567"
    [cage] = shown["cages"]
    assert (cage["item"], cage["pieces"], cage["request"]) == (1, 2, {"purpose": "isolate"})
    assert cage["design"]["verdict"] == "make"
    [finding] = shown["findings"]
    assert finding["expected"] == [None, 38.0]
    assert [stage["stage"] for stage in shown["stages"]] == ["handed-in"]


def test_there_is_no_such_order(shop: Shop, number: str) -> None:
    """None, and no owner; its stage cannot be asked for."""
    with shop.database.reading() as connection:
        assert orders.shown(connection, shop.database.sealer, "48291742") is None
        assert orders.owner_of(connection, "48291742") is None
        assert orders.owner_of(connection, number) == "anna"
        with pytest.raises(InconsistentError):
            orders.stage_of(connection, "48291742")


def test_orders_are_listed_by_stage(shop: Shop, number: str) -> None:
    """All of them, or those that stand at one stage."""
    shop.send("order", person="ola")
    shop.service.receive(shop.desk(DeskVerb.TAKE, number), "talk")
    with shop.database.reading() as connection:
        assert len(orders.listed(connection)) == 2
        assert [row["person"] for row in orders.listed(connection, "take")] == ["anna"]
        assert list(orders.listed(connection)[0]) == [
            "number", "version", "stage", "person", "handed_in_at",
        ]  # fmt: skip


def test_the_stage_is_dated_from_when_it_was_reached(shop: Shop, number: str) -> None:
    """A new version at the same stage does not move the date."""
    shop.clock.advance(timedelta(hours=1))
    shop.send(f"version {number} 2")
    assert shop.rows("SELECT stage_since = ? FROM orders", LATER) == [(0,)]
    shop.service.receive(shop.desk(DeskVerb.TAKE, number), "talk")
    assert shop.rows("SELECT stage_since = ? FROM orders", LATER) == [(1,)]


def test_an_older_version_is_not_moved(shop: Shop, number: str) -> None:
    """What was decided about version 1 does not hold for version 2."""
    shop.send(f"version {number} 2")
    moved = StageMoved(number=number, version=1, stage="cleared", by="maria")
    with pytest.raises(InconsistentError), shop.database.transaction() as connection:
        orders.move(connection, moved, shop.clock.now())


def test_a_person_s_orders_are_told_to_the_machine(shop: Shop, number: str) -> None:
    """Number, version, stage and since when, of this person alone."""
    shop.send("order", person="ola")
    with shop.database.reading() as connection:
        [view] = orders.orders_of(connection, "anna")
    assert (view.number, view.version, view.stage) == (number, 1, "handed-in")
    assert view.since == shop.clock.now()
