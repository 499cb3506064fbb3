"""What the desk does, and what the person hears of it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest

from conversations.effects import Journal, NoMoreReminders, Noted, Remind, Say, StageMoved
from conversations.events import Desk, DeskVerb
from conversations.session import Answer, Asking, Errand, Notebook
from conversations.steps import Asker, Step
from conversations.turns import reviewing
from conversations.turns.turn import Turn

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
NUMBER = "48291742"
Begin = Callable[..., Turn]


def event(verb: DeskVerb, **fields: object) -> Desk:
    """Maria does something with the order."""
    base = {"id": "d", "person": "anna", "at": NOW, "by": "maria", "number": NUMBER}
    return Desk.model_validate({**base, "verb": verb, **fields})


def says(turn: Turn, to: str) -> list[Say]:
    """The messages to somebody."""
    return [one for one in turn.effects if isinstance(one, Say) and one.to == to]


@pytest.mark.parametrize(
    ("stage", "verb", "fields", "code"),
    [
        ("handed-in", DeskVerb.TAKE, {"number": "12345678"}, "no-such-order"),
        ("handed-in", DeskVerb.CLEAR, {"version": 2}, "newer-version"),
        ("cleared", DeskVerb.CLEAR, {}, "not-from-this-stage"),
        ("handed-in", DeskVerb.HOLD, {}, "not-from-this-stage"),
        ("handed-in", DeskVerb.ASK, {}, "no-such-measure"),
        ("handed-in", DeskVerb.ASK, {"measure": "colour"}, "no-such-measure"),
        ("handed-in", DeskVerb.ASK, {"measure": "contact"}, "no-such-measure"),
        ("handed-in", DeskVerb.TURN_DOWN, {"note": "  "}, "needs-a-note"),
        ("posted", DeskVerb.NOTE, {}, "needs-a-note"),
    ],
)
def test_what_is_refused_changes_nothing(
    begin: Begin, notebook: Notebook, stage: str, verb: DeskVerb, fields: dict[str, object],
    code: str,
) -> None:  # fmt: skip
    """One message, to who did it, with the code of the reason."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage=stage)
    before = turn.session
    reviewing.review(turn, event(verb, **fields))
    (only,) = turn.effects
    assert isinstance(only, Say)
    assert (only.to, only.refused) == ("desk:maria", code)
    assert turn.session == before


@pytest.mark.parametrize(
    ("stage", "verb", "target", "told"),
    [
        ("handed-in", DeskVerb.TAKE, "on-the-desk", None),
        ("on-the-desk", DeskVerb.CLEAR, "cleared", "told.clear"),
        ("cleared", DeskVerb.BENCH, "on-the-bench", "told.bench"),
        ("on-the-bench", DeskVerb.MADE, "made", "told.made"),
        ("made", DeskVerb.POSTED, "posted", "told.posted"),
    ],
)
def test_a_move_is_done_written_down_and_told(
    begin: Begin, notebook: Notebook, stage: str, verb: DeskVerb, target: str, told: str | None
) -> None:
    """The person hears of what concerns her, with the stage it is in now."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage=stage)
    reviewing.review(turn, event(verb, version=1))
    assert StageMoved(number=NUMBER, version=1, stage=target, by="maria") in turn.effects
    (entry,) = (one for one in turn.effects if isinstance(one, Journal))
    assert (entry.what, entry.by, entry.before, entry.after) == (verb, "maria", stage, target)
    assert [one.lines[0].key for one in says(turn, "person")] == ([told] if told else [])
    assert all(one.stage == target for one in (*says(turn, "person"), *says(turn, "desk:maria")))


@pytest.mark.parametrize(
    ("purpose", "keys"),
    [("isolate", ["days.break", "days.combs", "days.drones", "days.law"]),
     ("introduce", ["days.introduce", "days.eggs"])],
)  # fmt: skip
def test_with_the_cage_go_the_days_to_count(
    begin: Begin, notebook: Notebook, purpose: str, keys: list[str]
) -> None:
    """Those of its purpose, once it is posted; without a purpose that is known there are none."""
    chosen = Answer(value=purpose, raw=purpose, at=NOW)
    notebook = notebook.model_copy(update={"answers": {**notebook.answers, Step.PURPOSE: chosen}})
    turn = begin(Asking(step=Step.RESTING), notebook, stage="made")
    reviewing.review(turn, event(DeskVerb.POSTED, version=1))
    (said,) = says(turn, "person")
    assert [one.key for one in said.lines] == ["told.posted", "blank", *keys]


def test_a_note_is_kept_and_nobody_else_sees_it(begin: Begin, notebook: Notebook) -> None:
    """The order stays where it is."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="posted")
    reviewing.review(turn, event(DeskVerb.NOTE, note=" Sent as a letter. "))
    assert Noted(number=NUMBER, by="maria", what="note", text="Sent as a letter.") in turn.effects
    assert says(turn, "person") == []
    assert not any(isinstance(one, StageMoved) for one in turn.effects)


def test_turning_down_tells_the_reason(begin: Begin, notebook: Notebook) -> None:
    """A very long one is cut in the message, never in what is kept."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="handed-in")
    note = "Too thick. " * 400
    reviewing.review(turn, event(DeskVerb.TURN_DOWN, note=note))
    (kept,) = (one for one in turn.effects if isinstance(one, Noted))
    assert kept.text == note.strip()
    assert len(says(turn, "person")[0].model_dump_json()) < 3000


def test_a_question_goes_out_at_once_and_is_reminded_of(begin: Begin, notebook: Notebook) -> None:
    """With the words of the desk, without the old value."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="handed-in")
    reviewing.review(turn, event(DeskVerb.ASK, measure="lug_room", note="At the ledge."))
    (asked,) = says(turn, "person")
    keys = [line.key for line in asked.lines]
    assert keys[:2] == ["ask.again", "ask.note"]
    assert "ask.was" not in keys
    assert (asked.question, asked.again, asked.stage) == ("lug_room", True, "question-out")
    assert Remind(what=f"question-{NUMBER}-1", at=NOW + timedelta(days=3)) in turn.effects
    assert turn.session.errands == (
        Errand(number=NUMBER, step=Step.LUG_ROOM, note="At the ledge."),
    )


def test_a_second_question_waits_for_the_first(begin: Begin, notebook: Notebook) -> None:
    """One question a message; the same one again is asked again, not twice."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="handed-in")
    for measure in ("lug_room", "ledge_up", "lug_room"):
        reviewing.review(turn, event(DeskVerb.ASK, measure=measure))
    assert [one.question for one in says(turn, "person")] == ["lug_room", "lug_room"]
    assert [errand.step for errand in turn.session.errands] == [Step.LEDGE_UP, Step.LUG_ROOM]


def test_a_question_waits_while_she_is_changing_an_answer_of_an_order(
    begin: Begin, notebook: Notebook
) -> None:
    """What she types next is the answer to what she was asked."""
    asking = Asking(step=Step.LID, asker=Asker.CHANGE, number=NUMBER)
    turn = begin(asking, notebook, stage="handed-in")
    reviewing.review(turn, event(DeskVerb.ASK, measure="lug_room"))
    assert turn.asking == asking
    assert says(turn, "person") == []
    assert len(turn.session.errands) == 1


@pytest.mark.parametrize(
    ("verb", "fields"), [(DeskVerb.CLEAR, {}), (DeskVerb.TURN_DOWN, {"note": "No."})]
)
def test_a_decision_takes_its_questions_back(
    begin: Begin, notebook: Notebook, verb: DeskVerb, fields: dict[str, object]
) -> None:
    """Nobody measures for an order that is decided; questions about another one stay."""
    mine = Errand(number=NUMBER, step=Step.LUG_ROOM)
    other = Errand(number="48291839", step=Step.LEDGE_UP)
    asking = Asking(step=Step.LUG_ROOM, asker=Asker.DESK, number=NUMBER)
    turn = begin(asking, notebook, stage="question-out", errands=(mine, other))
    reviewing.review(turn, event(verb, **fields))
    assert turn.session.errands == (other,)
    assert turn.asking.number == "48291839"
    assert NoMoreReminders(beginning=f"question-{NUMBER}") in turn.effects


def test_who_is_turned_down_hears_what_would_work(begin: Begin, notebook: Notebook) -> None:
    """In the workshop's own words, between the reason and the way on; both are kept."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="on-the-desk")
    act = event(DeskVerb.TURN_DOWN, version=1, note="Too wide.", would_work=" A rim of 4 mm. ")
    reviewing.review(turn, act)
    (say,) = says(turn, "person")
    assert [one.key for one in say.lines] == [
        "turned_down.head", "turned_down.why", "turned_down.instead", "turned_down.next",
    ]  # fmt: skip
    kept = Noted(number=NUMBER, by="maria", what="turn-down", text="Too wide.\nA rim of 4 mm.")
    assert kept in turn.effects


def test_without_a_way_out_none_is_spoken_of(begin: Begin, notebook: Notebook) -> None:
    """The reason alone."""
    turn = begin(Asking(step=Step.RESTING), notebook, stage="on-the-desk")
    reviewing.review(turn, event(DeskVerb.TURN_DOWN, version=1, note="Too wide."))
    (say,) = says(turn, "person")
    assert "turned_down.instead" not in [one.key for one in say.lines]
