"""The process is killed at any moment of an order: nothing is lost and nothing happens twice."""

from __future__ import annotations

import os
import sqlite3
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from tests.faults.conftest import Person, Wire

KILLS = int(os.environ.get("CAGEWRIGHT_KILLS", "50"))
"""A longer run before a release: CAGEWRIGHT_KILLS=1000."""
KILLS_A_PERSON = 10
"""An order is long enough for so many; more kills need more people."""
PLANTED_KILLS = 60

pytestmark = pytest.mark.slow

NewWire = Callable[..., "Wire"]
NewPerson = Callable[[str], "Person"]


def test_nothing_is_lost_and_nothing_asked_twice(
    new_wire: NewWire, new_person: NewPerson, capsys: pytest.CaptureFixture[str]
) -> None:
    """After every kill the events without an answer come again; each person ends with one order
    and was told the same as somebody whose order was never interrupted."""
    quiet, killed = new_wire(), new_wire()
    quiet.play([new_person("Ewa")], kills=0)
    [undisturbed] = quiet.people
    people = [new_person(f"P{count}") for count in range(3 + KILLS // KILLS_A_PERSON)]
    killed.play(people, kills=KILLS)
    tally = killed.tally
    with capsys.disabled():
        print(
            f"\n{tally.kills} kills, {tally.between} between the arrival of an answer and its "
            f"reply; {len(people)} orders, {tally.repeats} messages sent twice"
        )
    assert tally.kills >= KILLS
    assert tally.between * 2 >= tally.kills
    assert [person.told for person in people] == [undisturbed.told] * len(people)
    assert tally.apart == 0
    assert tally.repeats <= tally.kills * len(people)
    check_orders(killed.folder, [person.name for person in people])


def test_every_question_is_asked_once(new_wire: NewWire, new_person: NewPerson) -> None:
    """Without a kill, the same check holds: it is the measure for all others."""
    wire = new_wire()
    wire.play([new_person("Ewa")], kills=0)
    asked = Counter(question for question, _ in wire.people[0].told if question)
    assert set(asked.values()) == {1}
    assert wire.tally.repeats == 0


@pytest.mark.parametrize("plant", ["ack-first", "no-memory", "mark-first"])
def test_the_check_finds_a_planted_mistake(
    new_wire: NewWire, new_person: NewPerson, plant: str
) -> None:
    """A worker that acknowledges too early, forgets what it has seen, or marks before it sends
    is found out: somebody waits for ever, or is told something else."""
    wire = new_wire(plant, patience=2.0)
    people = [new_person(f"P{count}") for count in range(4)]
    try:
        wire.play(people, kills=PLANTED_KILLS)
    except wire.astray:
        told = []
    else:
        told = [person.told for person in people]
    assert not same_and_once(told)


def same_and_once(told: list[list[tuple[str | None, str]]]) -> bool:
    """Whether all were told the same, and no question came twice."""
    if not told:
        return False
    asked = Counter(question for question, _ in told[0] if question)
    return all(one == told[0] for one in told) and set(asked.values()) == {1}


def check_orders(folder: Path, names: list[str]) -> None:
    """One order each, whole, with an answer to each measure, and nothing left waiting."""
    with sqlite3.connect(folder / "data" / "w.db") as connection:
        orders = connection.execute("SELECT person, version FROM orders").fetchall()
        assert sorted(orders) == sorted((name, 1) for name in names)
        assert connection.execute("SELECT count(DISTINCT number) FROM cages").fetchone() == (
            len(names),
        )
        answers = connection.execute(
            "SELECT question, count(*) FROM answers WHERE superseded_by IS NULL GROUP BY question"
        ).fetchall()
        assert len(answers) > 10
        assert {count for _, count in answers} == {len(names)}
        left = "SELECT count(*) FROM inbox WHERE state <> 'done'"
        assert connection.execute(left).fetchone() == (0,)
        unsent = "SELECT count(*) FROM outbox WHERE state <> 'sent' AND channel <> 'desk'"
        assert connection.execute(unsent).fetchone() == (0,)
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    connection.close()
