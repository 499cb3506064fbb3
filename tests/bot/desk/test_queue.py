"""The orders as the desk sees them from afar."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from bot.desk.queue import CLOSED, closed, is_open, queue, turn_of
from conversations.events import DeskVerb
from conversations.review import Stage

START = datetime(2026, 3, 2, 9, tzinfo=UTC)


def numbers(shop: Any) -> list[str]:
    """All order numbers, the oldest first."""
    return [number for (number,) in shop.rows("SELECT number FROM orders ORDER BY rowid")]


def move(shop: Any, number: str, stage: str) -> None:
    """Bring an order to a stage."""
    with shop.database.transaction() as connection:
        connection.execute(
            "UPDATE orders SET stage = ?, stage_since = ? WHERE number = ?",
            [stage, shop.clock.now().isoformat(), number],
        )


def test_an_order_shows_what_matters(shop: Any) -> None:
    """Stage, whose turn it is, since when, how many, how it fits and the gravest doubt."""
    shop.send("order")
    (row,) = queue(shop.database)
    assert row.number == numbers(shop)[0]
    assert (row.version, row.stage, row.turn, row.pieces) == (1, "handed-in", "desk", 2)
    assert row.since == shop.clock.now()
    assert (row.verdict, row.worst, row.severity) == ("make", "comb-fatter-than-wood", "note")


def test_what_waits_for_the_desk_comes_first(shop: Any) -> None:
    """Then the bench, then the beekeeper; within each, what waits longest."""
    for person in ("a", "b", "c", "d"):
        shop.send("order", person)
        shop.clock.advance(timedelta(hours=1))
    first, second, third, fourth = numbers(shop)
    shop.clock.set(START)
    move(shop, first, "question-out")
    move(shop, second, "cleared")
    assert [row.number for row in queue(shop.database)] == [third, fourth, second, first]


def test_what_is_done_with_is_apart(shop: Any) -> None:
    """It is not in the queue, and the newest of it comes first."""
    for person in ("a", "b", "c"):
        shop.send("order", person)
    first, second, third = numbers(shop)
    move(shop, first, "turned-down")
    shop.clock.advance(timedelta(hours=1))
    move(shop, second, "settled")
    assert [row.number for row in queue(shop.database)] == [third]
    assert [row.number for row in closed(shop.database)] == [second, first]


def test_a_version_counts_only_while_it_is_the_newest(shop: Any) -> None:
    """A row shows the cages of the newest version alone."""
    shop.send("order")
    (number,) = numbers(shop)
    shop.send(f"version {number} 2")
    (row,) = queue(shop.database)
    assert (row.version, row.pieces) == (2, 2)


@pytest.mark.parametrize("stage", Stage)
def test_every_stage_is_somebody_s_turn_or_nobody_s(stage: Stage) -> None:
    """An open order past the notebook always waits for somebody; a closed one for nobody."""
    before = stage in (Stage.NOTEBOOK, Stage.READ_BACK)
    assert (turn_of(stage) == "nobody") == (stage in CLOSED or before)
    assert is_open(stage) == (stage not in CLOSED)


def test_a_note_does_not_move_an_order(shop: Any) -> None:
    """It stands where it stood, since when it stood there."""
    shop.send("order")
    before = queue(shop.database)
    shop.clock.advance(timedelta(hours=1))
    shop.service.receive(shop.desk(DeskVerb.NOTE, before[0].number, note="nice"), "desk")
    assert queue(shop.database) == before
