"""One event, one transaction."""

from __future__ import annotations

import sqlite3
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from bot.storage import staff
from bot.storage.errors import UnavailableError
from bot.storage.sessions import Sessions
from conversations.events import DeskVerb, Photo
from conversations.review import Role

if TYPE_CHECKING:
    from tests.bot.conftest import Shop

NUMBER = "SELECT number FROM orders"


def test_an_event_and_all_it_does_are_written(shop: Shop) -> None:
    """The answer, the message and the memory that the event came are all there afterwards."""
    assert shop.send("answer 360")
    assert shop.said_to() == ["noted 360"]
    assert shop.rows("SELECT question, raw, reading, resolution, how FROM answers") == [
        ("side_to_side", "360", "360", 0.5, "typed")
    ]
    assert shop.rows("SELECT state, tries, k FROM inbox") == [("done", 0, 1)]


def test_the_same_id_twice_is_one_event(shop: Shop) -> None:
    """An event that is delivered again has no effect again, on the same channel."""
    event = shop.text("answer 360")
    assert shop.service.receive(event, "web")
    assert not shop.service.receive(event, "web")
    assert shop.said_to() == ["noted 360"]


def test_the_same_id_on_another_channel_is_another_event(shop: Shop) -> None:
    """Channels number their events by themselves."""
    event = shop.text("say hello")
    assert shop.service.receive(event, "web")
    assert shop.service.receive(event, "terminal")
    assert shop.said_to() == ["hello", "hello"]


def test_several_events_are_taken_in_order(shop: Shop) -> None:
    """A batch has one turn for each event, and knows which were seen before."""
    first = shop.text("say one")
    shop.service.receive(first, "web")
    batch = [first, shop.text("say two"), shop.text("break"), shop.text("say three")]
    assert shop.service.receive_many(batch, "web") == [False, True, True, True]
    assert shop.said_to() == ["one", "two", "trouble.dead", "three"]


def test_what_was_kept_before_a_crash_is_worked_off(shop: Shop) -> None:
    """An event whose turn never came is not forgotten: it has its turn after the next start."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shop.service, "_catch_up", lambda: 0)
        shop.service.receive_many([shop.text("say one"), shop.text("say two")], "web")
    assert shop.said_to() == []
    shop.reopen()
    assert shop.service.resume() == 2
    assert shop.said_to() == ["one", "two"]


def test_a_new_event_waits_for_what_was_kept_before_it(shop: Shop) -> None:
    """Nobody has to think of resuming: what came first has its turn first."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shop.service, "_catch_up", lambda: 0)
        shop.service.receive_many([shop.text("say one")], "web")
    shop.reopen()
    shop.send("say two")
    assert shop.said_to() == ["one", "two"]


def test_a_turn_that_raises_leaves_nothing_but_its_row(shop: Shop) -> None:
    """Effects before the failure are not written; after three tries the event is dead."""
    assert shop.send("answer 360; break")
    assert shop.rows("SELECT count(*) FROM answers") == [(0,)]
    assert shop.rows("SELECT state, tries, error FROM inbox") == [("dead", 3, "RuntimeError")]
    assert len(shop.machine.turns) == 3


def test_the_person_and_the_desk_are_told_once_of_a_dead_event(shop: Shop) -> None:
    """One message each, and what comes later is served."""
    shop.send("break")
    shop.send("say hello")
    assert shop.said_to() == ["trouble.dead", "hello"]
    assert shop.said_to("desk") == ["desk.dead"]
    assert [letter.k for letter in shop.outbox.since("anna")] == [1, 2]


def test_the_person_hears_of_it_in_their_language(shop: Shop) -> None:
    """The message about a dead event is in the language of the conversation."""
    shop.send("say hello")
    with shop.database.transaction() as connection:
        sessions = Sessions(shop.database.sealer)
        polish = sessions.of(connection, "anna").model_copy(update={"language": "pl"})
        sessions.keep(connection, polish, shop.clock.now())
    shop.send("break")
    assert shop.outbox.since("anna")[-1].say.language == "pl"


def test_an_unreadable_session_is_reported_and_left_alone(shop: Shop) -> None:
    """A session that does not open kills the event, not the service."""
    shop.send("say hello")
    with shop.database.transaction() as connection:
        connection.execute("UPDATE sessions SET session_sealed = x'00'")
    assert shop.send("say again")
    assert shop.said_to() == ["hello", "trouble.dead"]
    assert shop.rows("SELECT error FROM inbox WHERE state = 'dead'") == [("SealError",)]
    assert shop.rows("SELECT session_sealed FROM sessions") == [(b"\0",)]


def test_a_row_that_cannot_be_opened_does_not_hold_up_the_others(shop: Shop) -> None:
    """What was kept but is damaged dies; the rest is worked off."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shop.service, "_catch_up", lambda: 0)
        shop.service.receive_many([shop.text("say one"), shop.text("say two")], "web")
    with shop.database.transaction() as connection:
        connection.execute("UPDATE inbox SET raw_sealed = x'01' WHERE seq = 1")
    shop.reopen()
    assert shop.service.resume() == 2
    assert shop.said_to() == ["trouble.dead", "two"]


def test_a_failing_machine_underneath_is_the_caller_s_to_repeat(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While another process holds the file, the event is not taken, and no try is counted."""
    with shop.database.reading() as connection:
        connection.execute("PRAGMA busy_timeout = 1")
    other = sqlite3.connect(shop.database.path)
    other.execute("BEGIN IMMEDIATE")
    event = shop.text("say hello")
    with pytest.raises(UnavailableError):
        shop.service.receive(event, "web")
    other.rollback()
    other.close()
    assert shop.service.receive(event, "web")
    assert shop.said_to() == ["hello"]
    assert shop.rows("SELECT tries FROM inbox") == [(0,)]


def test_a_miscounting_machine_is_found_out(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """Buttons and edits name messages by their count, so the count is never off."""
    honest = shop.machine.advance
    monkeypatch.setattr(
        shop.service,
        "_advance",
        lambda session, event, context: (session, honest(session, event, context)[1]),
    )
    shop.send("say hello")
    assert shop.rows("SELECT state, error FROM inbox") == [("dead", "InconsistentError")]


def test_half_a_character_does_not_stop_anything(shop: Shop) -> None:
    """A text that no file can hold is taken with a sign in the place of the half."""
    assert shop.send("say a\ud83d b")
    assert shop.said_to() == ["a? b"]


# --- orders ---------------------------------------------------------------------------


def test_an_order_is_written_whole(shop: Shop) -> None:
    """Order, version, cage with its design, finding and journal stand there together."""
    shop.send("answer 360; order")
    [(number,)] = shop.rows(NUMBER)
    assert shop.rows("SELECT number, version, stage, person, handed_in_at FROM orders") == [
        (number, 1, "handed-in", "anna", "2026-03-02T09:00:00.000Z")
    ]
    assert shop.rows("SELECT number, version, by, reason FROM versions") == [
        (number, 1, "beekeeper", "handed-in")
    ]
    assert shop.rows("SELECT item, pieces, workshop_version FROM cages") == [(1, 2, "1")]
    assert shop.rows("SELECT code, seen, expected_low, expected_high FROM findings") == [
        ("comb-fatter-than-wood", 38.5, None, 38.0)
    ]
    assert shop.rows("SELECT what, by, number, version, before, after FROM audit") == [
        ("stage", "beekeeper", number, 1, None, "handed-in")
    ]
    assert shop.rows("SELECT number FROM answers") == [(number,)]


def test_a_number_is_used_once(shop: Shop) -> None:
    """Each order has its own number, and the number kept for the next is a new one."""
    for _ in range(5):
        shop.send("order")
    numbers = {number for (number,) in shop.rows(NUMBER)}
    assert len(numbers) == 5
    assert numbers.isdisjoint(number for (number,) in shop.rows("SELECT next FROM numbers"))


def test_the_next_number_outlives_a_restart(shop: Shop) -> None:
    """A turn that is done again after a crash gives the order the same number."""
    shop.send("say hello")
    [(kept,)] = shop.rows("SELECT next FROM numbers")
    shop.reopen()
    shop.send("order")
    assert shop.rows(NUMBER) == [(kept,)]


@pytest.mark.parametrize("version", [1, 3])
def test_versions_follow_one_another(shop: Shop, version: int) -> None:
    """A version that exists, or leaves one out, is a mistake of ours and changes nothing."""
    shop.send("order")
    [(number,)] = shop.rows(NUMBER)
    shop.send(f"version {number} {version}")
    assert shop.rows("SELECT version FROM versions") == [(1,)]
    assert shop.rows("SELECT error FROM inbox WHERE state = 'dead'") == [("InconsistentError",)]


def test_a_new_version_stands_beside_the_old(shop: Shop) -> None:
    """The order shows today's version; the earlier one stays as it was."""
    shop.send("order")
    [(number,)] = shop.rows(NUMBER)
    shop.send(f"version {number} 2")
    assert shop.rows("SELECT version FROM orders") == [(2,)]
    assert shop.rows("SELECT version, reason FROM versions") == [(1, "handed-in"), (2, "changed")]


def test_nobody_gets_at_another_s_order(shop: Shop) -> None:
    """A version of an order that belongs to somebody else changes nothing."""
    shop.send("order")
    [(number,)] = shop.rows(NUMBER)
    shop.send(f"version {number} 2", person="ola")
    assert shop.rows("SELECT version, person FROM orders") == [(1, "anna")]


# --- the desk -------------------------------------------------------------------------


def test_the_desk_reaches_the_person_by_the_number(shop: Shop) -> None:
    """A member of staff names an order; the person whose order it is is found."""
    shop.send("order")
    [(number,)] = shop.rows(NUMBER)
    spaced = f"{number[:3]} {number[3:6]} {number[6:]}"
    assert shop.service.receive(shop.desk(DeskVerb.TAKE, spaced), "talk")
    assert shop.said_to()[-1] == "stage take"
    assert shop.said_to("desk:maria") == ["done"]
    assert shop.rows("SELECT stage FROM orders") == [("take",)]
    assert shop.rows("SELECT channel FROM people") == [("web",)]


def test_an_unknown_number_is_refused(shop: Shop) -> None:
    """The member of staff hears that there is no such order, and nothing else happens."""
    shop.service.receive(shop.desk(DeskVerb.TAKE, "48291742"), "talk")
    [letter] = shop.outbox.since("desk:maria")
    assert letter.say.refused == "no-such-order"
    assert letter.say.lines[0].key == "refused.no-such-order"
    assert shop.machine.turns == []
    assert shop.rows("SELECT count(*) FROM people") == [(0,)]


def employed(shop: Shop, name: str, role: Role) -> None:
    """Somebody who works here."""
    with shop.database.transaction() as connection:
        staff.invite(connection, shop.database.sealer, name, role, name, shop.clock.now())


def test_a_rehearsal_says_what_would_be_said_and_keeps_nothing(shop: Shop) -> None:
    """Nobody hears of it, nothing moves; asked again it says the same."""
    employed(shop, "maria", Role.DESK)
    shop.send("order")
    [(number,)] = shop.rows(NUMBER)
    tables = ("inbox", "outbox", "audit", "notes", "due", "sessions")
    before = [shop.rows(f"SELECT * FROM {table}") for table in tables]
    act = shop.desk(DeskVerb.ASK, number)
    said = [shop.service.rehearse(act) for _ in range(2)]
    assert [say.to for say in said[0]] == ["person", "desk:maria"]
    assert said[0] == said[1]
    assert [shop.rows(f"SELECT * FROM {table}") for table in tables] == before
    assert shop.rows("SELECT stage FROM orders") == [("handed-in",)]


@pytest.mark.parametrize(
    ("by", "number", "code"),
    [("mallory", None, "not-allowed"), ("jon", None, "not-allowed"),
     ("maria", "12345678", "no-such-order")],
)  # fmt: skip
def test_a_rehearsal_is_refused_as_the_act_would_be(
    shop: Shop, by: str, number: str | None, code: str
) -> None:
    """Who may not ask does not see what would be asked."""
    employed(shop, "maria", Role.DESK)
    employed(shop, "jon", Role.BENCH)
    shop.send("order")
    [(known,)] = shop.rows(NUMBER)
    (refused,) = shop.service.rehearse(shop.desk(DeskVerb.ASK, number or known, by=by))
    assert refused.refused == code


def test_who_may_not_act_is_refused_and_the_journal_says_so(shop: Shop) -> None:
    """Somebody who is not of the staff: nothing moves, and what was tried is kept as codes."""
    shop.send("order")
    [(number,)] = shop.rows(NUMBER)
    shop.service.receive(shop.desk(DeskVerb.CLEAR, number, by="mallory"), "desk")
    assert shop.outbox.since("desk:mallory")[0].say.refused == "not-allowed"
    assert shop.rows("SELECT stage FROM orders") == [("handed-in",)]
    assert shop.rows("SELECT by, number, after FROM audit WHERE what = 'not-allowed'") == [
        ("mallory", number, "clear")
    ]


def test_a_note_is_kept_sealed(shop: Shop) -> None:
    """What staff write is not readable in the table."""
    shop.send("order")
    [(number,)] = shop.rows(NUMBER)
    shop.service.receive(shop.desk(DeskVerb.NOTE, number, note="walnut frames"), "talk")
    [(sealed,)] = shop.rows("SELECT text_sealed FROM notes")
    assert isinstance(sealed, bytes)
    assert b"walnut" not in sealed
    assert shop.database.sealer.open(sealed, "notes.text_sealed") == "walnut frames"


def test_a_dead_event_of_the_desk_is_told_to_the_desk_alone(shop: Shop) -> None:
    """The beekeeper did nothing and hears nothing."""
    shop.send("order")
    [(number,)] = shop.rows(NUMBER)
    before = shop.said_to()
    old = shop.desk(DeskVerb.CLEAR, number).model_copy(update={"version": 7})
    shop.service.receive(old, "talk")
    assert shop.said_to() == before
    assert shop.said_to("desk:maria") == ["trouble.dead"]


# --- reminders ------------------------------------------------------------------------


def test_a_reminder_happens_when_its_time_has_come(shop: Shop) -> None:
    """Not before, and once."""
    shop.send("remind look 60")
    assert shop.service.tick() == 0
    shop.clock.advance(timedelta(seconds=60))
    assert shop.service.tick() == 1
    assert shop.service.tick() == 0
    assert shop.said_to() == ["due look"]


def test_a_later_reminder_of_the_same_name_replaces_the_first(shop: Shop) -> None:
    """A person has one reminder of a name."""
    shop.send("remind look 60")
    shop.send("remind look 600")
    shop.clock.advance(timedelta(seconds=60))
    assert shop.service.tick() == 0
    assert shop.service.next_reminder() == datetime(2026, 3, 2, 9, 10, tzinfo=UTC)


def test_reminders_are_cancelled_by_how_they_begin(shop: Shop) -> None:
    """`%` and `_` stand for themselves; others stay."""
    for what in ("note-1", "note-2", "other", "n%"):
        shop.send(f"remind {what} 60")
    shop.send("forget note-")
    shop.send("forget %")
    shop.clock.advance(timedelta(seconds=60))
    shop.service.tick()
    assert shop.said_to() == ["due n%", "due other"]


def test_reminders_of_several_people_happen_in_order(shop: Shop) -> None:
    """The earliest first; each in its own turn."""
    shop.send("remind late 60", person="anna")
    shop.send("remind soon 30", person="ola")
    shop.clock.advance(timedelta(hours=1))
    assert shop.service.tick() == 2
    assert [turn.split()[1] for turn in shop.machine.turns[-2:]] == ["soon", "late"]


def test_a_reminder_that_breaks_does_not_come_again(shop: Shop) -> None:
    """A reminder whose turn raises dies like any event; the person hears nothing of it."""
    shop.send("remind look 60")
    shop.clock.advance(timedelta(seconds=60))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shop.service, "_advance", None)
        assert shop.service.tick() == 1
    assert shop.service.tick() == 0
    assert shop.said_to() == []
    assert shop.said_to("desk") == ["desk.dead"]


# --- the rest -------------------------------------------------------------------------


def test_starting_over_throws_away_what_belongs_to_no_order(shop: Shop) -> None:
    """Answers and photos of the notebook go; those of an order stay."""
    shop.send("answer 360; order")
    shop.send("answer 361; answer 362")
    shop.service.receive(Photo(id="p", person="anna", at=shop.clock.now(), photo="ab"), "web")
    shop.send("wipe")
    assert shop.rows("SELECT reading FROM answers") == [("360",)]
    assert shop.rows("SELECT count(*) FROM photos") == [(0,)]


def test_what_people_wrote_goes_after_two_weeks(shop: Shop) -> None:
    """The words go; that the event came stays, so it is not taken twice."""
    event = shop.text("say hello")
    shop.service.receive(event, "web")
    shop.clock.advance(timedelta(days=15))
    shop.service.tick()
    assert shop.rows("SELECT state, raw_sealed FROM inbox") == [("done", None)]
    assert not shop.service.receive(event, "web")


def test_what_waits_is_not_thrown_away_however_old(shop: Shop) -> None:
    """An event that had no turn yet keeps its words."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shop.service, "_catch_up", lambda: 0)
        shop.service.receive_many([shop.text("say hello")], "web")
        shop.clock.advance(timedelta(days=15))
        shop.service.tick()
    shop.service.resume()
    assert shop.said_to() == ["hello"]


async def test_the_bell_rings_for_those_who_got_a_message(shop: Shop) -> None:
    """Who listens for a mailbox is woken by a turn that wrote to it, and by no other."""
    with shop.bell.listen("anna") as anna, shop.bell.listen("ola") as ola:
        shop.send("say hello")
        await anna.rung()
        assert not ola._heard.is_set()


def test_a_turn_is_committed_once(shop: Shop) -> None:
    """Whatever a turn writes, there is one wait for the disk."""
    statements: list[str] = []
    with shop.database.reading() as connection:
        connection.set_trace_callback(statements.append)
    shop.send("answer 360")
    shop.send("say hello")
    with shop.database.reading() as connection:
        connection.set_trace_callback(None)
    assert statements.count("COMMIT") == 2
