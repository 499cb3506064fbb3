"""The orders as the desk sees them from afar."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from bot.desk.queue import CLOSED, Row, closed, is_open, queue, turn_of, working_days
from bot.storage import audit, people
from conversations.effects import Journal
from conversations.events import DeskVerb
from conversations.review import Role, Stage

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
    (row,) = queue(shop.database, shop.clock.now())
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
    move(shop, first, "question-out")
    move(shop, second, "cleared")
    assert [row.number for row in queue(shop.database, shop.clock.now())] == [
        third,
        fourth,
        second,
        first,
    ]


def test_what_is_done_with_is_apart(shop: Any) -> None:
    """It is not in the queue, and the newest of it comes first."""
    for person in ("a", "b", "c"):
        shop.send("order", person)
    first, second, third = numbers(shop)
    move(shop, first, "turned-down")
    shop.clock.advance(timedelta(hours=1))
    move(shop, second, "settled")
    assert [row.number for row in queue(shop.database, shop.clock.now())] == [third]
    assert [row.number for row in closed(shop.database, shop.clock.now())] == [second, first]


def test_a_version_counts_only_while_it_is_the_newest(shop: Any) -> None:
    """A row shows the cages of the newest version alone."""
    shop.send("order")
    (number,) = numbers(shop)
    shop.send(f"version {number} 2")
    (row,) = queue(shop.database, shop.clock.now())
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
    before = queue(shop.database, shop.clock.now())
    shop.service.receive(shop.desk(DeskVerb.NOTE, before[0].number, note="nice"), "desk")
    assert queue(shop.database, shop.clock.now()) == before


def test_a_row_says_who_took_it_and_how_to_reach_whom(shop: Any) -> None:
    """The bench is not told how to reach anybody; who took it is said while it is on the desk."""
    shop.send("contact +48 600; order")
    (number,) = numbers(shop)
    shop.service.receive(shop.desk(DeskVerb.TAKE, number, by="maria"), "talk")
    move(shop, number, "question-out")
    with shop.database.transaction() as connection:
        audit.journal(
            connection, "anna",
            Journal(what=audit.STAGE, by="jan", number=number, version=1, after="on-the-desk"),
            shop.clock.now(),
        )  # fmt: skip
        people.lose(connection, "anna")
    (row,) = queue(shop.database, shop.clock.now())
    assert (row.taken_by, row.contact, row.reachable) == ("jan", "+48 600", False)
    (row,) = queue(shop.database, shop.clock.now(), Role.BENCH)
    assert row.contact is None
    move(shop, number, "cleared")
    assert queue(shop.database, shop.clock.now())[0].taken_by is None


# --- what comes first -----------------------------------------------------------------


def design(verdict: str = "make", severity: str | None = None, *missing: str) -> str:
    """A cage as it was sized: how it fits, its one doubt, what was not measured."""
    finding = {"code": "end-gap", "severity": severity}
    return json.dumps(
        {"verdict": verdict, "findings": [finding] if severity else [], "open": missing}
    )


def ordered(shop: Any, person: str, sized: str, reason: str = "handed-in") -> str:
    """An order of this person, sized like this, an hour after the one before it."""
    shop.clock.advance(timedelta(hours=1))
    shop.send("order", person)
    number = numbers(shop)[-1]
    with shop.database.transaction() as connection:
        for table in ("cages", "versions"):
            connection.execute(f"DROP TRIGGER IF EXISTS {table}_never_update")
        connection.execute("UPDATE cages SET design_json = ? WHERE number = ?", [sized, number])
        connection.execute("UPDATE versions SET reason = ? WHERE number = ?", [reason, number])
    return number


def rows(shop: Any, **options: Role) -> dict[str, Row]:
    """The queue by number, in its order."""
    return {row.number: row for row in queue(shop.database, shop.clock.now(), **options)}


def test_each_order_says_why_it_stands_where_it_stands(shop: Any) -> None:
    """Trouble, a person asked for, an answer, clean ones, doubts, what is missing, the others."""
    expected = {
        "missing": ordered(shop, "a", design("ask", None, "inside_along")),
        "doubt": ordered(shop, "b", design("make", "check")),
        "clean": ordered(shop, "c", design("make", "note")),
        "answered": ordered(shop, "d", design("ask", "stop"), "asked-again"),
        "person-wanted": ordered(shop, "e", design()),
        "fit-trouble": ordered(shop, "f", design()),
        "bench": ordered(shop, "g", design()),
        "waiting": ordered(shop, "h", design()),
    }
    move(shop, expected["fit-trouble"], "fit-trouble")
    move(shop, expected["bench"], "cleared")
    move(shop, expected["waiting"], "posted")
    wants_a_person(shop, expected["person-wanted"])
    found = rows(shop)
    assert {row.why: number for number, row in found.items()} == expected
    assert [row.why for row in found.values()] == [
        "person-wanted", "fit-trouble", "answered", "clean", "doubt", "missing", "bench", "waiting",
    ]  # fmt: skip


def wants_a_person(shop: Any, number: str) -> None:
    """The person of this order asks for somebody."""
    entry = Journal(what="wants-a-person", by="beekeeper", number=number)
    with shop.database.transaction() as connection:
        audit.journal(connection, "somebody", entry, shop.clock.now())


def test_a_cage_that_cannot_be_made_is_a_doubt(shop: Any) -> None:
    """And so is one that is not sure although nothing is missing."""
    one = ordered(shop, "a", design("cannot"))
    other = ordered(shop, "b", design("ask"))
    assert [rows(shop)[number].why for number in (one, other)] == ["doubt", "doubt"]


def test_whoever_acts_has_answered_the_wish_for_a_person(shop: Any) -> None:
    """Until the person asks anew; also an order at the bench comes back to the desk by it."""
    number = ordered(shop, "a", design())
    move(shop, number, "cleared")
    wants_a_person(shop, number)
    assert (rows(shop)[number].why, rows(shop)[number].turn) == ("person-wanted", "desk")
    with shop.database.transaction() as connection:
        entry = Journal(what="note", by="maria", number=number)
        audit.journal(connection, "a", entry, shop.clock.now())
    assert (rows(shop)[number].why, rows(shop)[number].turn) == ("bench", "bench")
    wants_a_person(shop, number)
    assert rows(shop)[number].why == "person-wanted"


def test_waiting_moves_an_order_up_a_rank_a_working_day(shop: Any) -> None:
    """From the third working day on (it began on a Monday), and never past the first rank."""
    number = ordered(shop, "a", design("ask", None, "inside_along"))
    ranks = []
    for _ in range(8):
        ranks.append(rows(shop)[number].rank)
        shop.clock.advance(timedelta(days=1))
    assert ranks == [5, 5, 5, 4, 3, 3, 3, 2]
    shop.clock.advance(timedelta(days=30))
    assert rows(shop)[number].rank == 1
    assert rows(shop)[number].moved_up


def test_an_old_doubt_comes_before_a_fresh_clean_order(shop: Any) -> None:
    """Nothing waits for ever behind what is easier."""
    old = ordered(shop, "a", design("make", "check"))
    shop.clock.advance(timedelta(days=4))
    fresh = ordered(shop, "b", design())
    assert list(rows(shop)) == [old, fresh]


def test_what_was_promised_sooner_comes_first(shop: Any) -> None:
    """Among orders of one rank."""
    one, other = ordered(shop, "a", design()), ordered(shop, "b", design())
    with shop.database.transaction() as connection:
        connection.execute(
            "UPDATE orders SET promised_for = '2026-04-01' WHERE number = ?", [other]
        )
    assert list(rows(shop)) == [other, one]


def test_the_bench_sees_its_own_work_first(shop: Any) -> None:
    """The same orders, in the order of who is to act."""
    desk, bench = ordered(shop, "a", design()), ordered(shop, "b", design())
    move(shop, bench, "cleared")
    assert list(rows(shop)) == [desk, bench]
    assert list(rows(shop, role=Role.BENCH)) == [bench, desk]


def test_what_was_asked_rests_until_the_person_is_reminded(shop: Any) -> None:
    """Then the desk sees it again; what is posted rests until somebody says something."""
    asked, posted = ordered(shop, "a", design()), ordered(shop, "b", design())
    move(shop, asked, "question-out")
    move(shop, posted, "posted")
    assert [row.resting for row in rows(shop).values()] == [True, True]
    shop.clock.advance(timedelta(days=3))
    assert [rows(shop)[number].resting for number in (asked, posted)] == [False, True]


@pytest.mark.parametrize(
    ("start", "end", "days"),
    [(2, 2, 0), (2, 3, 1), (6, 9, 1), (2, 9, 5), (7, 8, 0), (2, 16, 10)],
)
def test_weekends_are_no_working_days(start: int, end: int, days: int) -> None:
    """In March 2026, which has its first Monday on the second."""
    assert working_days(START.replace(day=start), START.replace(day=end)) == days
