"""News reach those whom they concern, and nobody else."""

from __future__ import annotations

from typing import Any

import pytest

from bot.storage import people, staff, telling
from conversations.effects import StageMoved
from conversations.review import Role


@pytest.fixture
def crew(shop: Any) -> Any:
    """Somebody of each role, each with an address, and an order."""
    shop.send("contact +48 600;order")
    shop.number = shop.rows("SELECT number FROM orders")[0][0]
    with shop.database.transaction() as connection:
        for role in Role:
            staff.invite(connection, shop.database.sealer, role, role, role, shop.clock.now())
            staff.bind(connection, role, f"at-{role}")
    return shop


def moved(shop: Any, before: str, after: str, by: str = "operator") -> set[str]:
    """Who hears that somebody moved the order."""
    step = StageMoved(number=shop.number, version=1, stage=after, by=by)
    with shop.database.transaction() as connection:
        return telling.tell_moved(
            connection, shop.database.sealer, step, before, at=shop.clock.now(), event=1
        )


def test_a_move_is_told_to_the_others_by_what_they_do(crew: Any) -> None:
    """The bench hears what comes to it or goes from it; who did it hears nothing."""
    assert moved(crew, "handed-in", "on-the-desk") == {"at-desk"}
    assert moved(crew, "on-the-desk", "cleared") == {"at-desk", "at-bench"}
    assert moved(crew, "cleared", "turned-down", "desk") == {"at-operator", "at-bench"}
    assert moved(crew, "handed-in", "withdrawn", "beekeeper") == set()


def test_somebody_unreachable_is_told_once_with_the_contact(crew: Any) -> None:
    """Never the id, where they said how else to reach them; the open order is named."""
    for _ in range(2):
        with crew.database.transaction() as connection:
            telling.tell_unreachable(
                connection, crew.database.sealer, "anna", at=crew.clock.now(), event=1
            )
    for box in ("desk", "at-desk", "at-operator"):
        said = [one.say for one in crew.outbox.since(box) if "unreachable" in one.say.lines[0].key]
        assert [(one.number, one.lines[0].values["person"].text) for one in said] == [
            (crew.number, "+48 600")
        ]
    assert crew.outbox.since("at-bench") == []
    with crew.database.reading() as connection:
        assert not people.reachable(connection, "anna")


def test_staff_who_block_us_are_named_to_the_others(crew: Any) -> None:
    """And not written to themselves."""
    with crew.database.transaction() as connection:
        people.meet(connection, "at-desk", "telegram", crew.clock.now())
        rung = telling.tell_unreachable(
            connection, crew.database.sealer, "at-desk", at=crew.clock.now(), event=1
        )
    assert rung == {"desk", "at-operator"}
    value = crew.outbox.since("at-operator")[-1].say.lines[0].values["person"]
    assert value.text == "desk"
