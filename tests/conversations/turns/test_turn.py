"""One turn being built."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from fractions import Fraction

import pytest

from conversations.effects import (
    Answered,
    Count,
    Free,
    Journal,
    LengthValue,
    OrderVersion,
    Say,
    StageMoved,
    TextKey,
    Wipe,
)
from conversations.events import Edit
from conversations.locale import languages
from conversations.review import Stage
from conversations.script import QUESTIONS, Kind
from conversations.session import LEDGER, Answer, Asking, Errand, Notebook, Said
from conversations.steps import Asker, Step
from conversations.turns.turn import Turn, button, language_choices, length, line, shortened, shown

NOW = datetime(2026, 3, 2, 9, tzinfo=UTC)
NUMBER = "48291742"
Begin = Callable[..., Turn]
Given = Callable[..., Answer]


def said(turn: Turn) -> list[Say]:
    """The messages to the person so far."""
    return [one for one in turn.effects if isinstance(one, Say) and one.to == "person"]


def test_an_answer_goes_into_notebook_record_and_journal(begin: Begin, answer: Given) -> None:
    """The journal has it before and after, the record as it was typed."""
    turn = begin(notebook=Notebook(parked=(Step.LUG_ROOM, Step.LEDGE_UP)))
    turn.record(Step.LUG_ROOM, answer("393", raw="39,3", step=Fraction(1)), None)
    turn.record(Step.LUG_ROOM, answer("394", raw="394 mm"), None)
    assert turn.session.notebook.answers[Step.LUG_ROOM].value == "394"
    assert turn.session.notebook.parked == (Step.LEDGE_UP,)
    assert turn.effects == [
        Answered(question="lug_room", raw="39,3", reading="393", step=Fraction(1), how="typed"),
        Journal(what="answered", by="beekeeper", question="lug_room", after="393"),
        Answered(question="lug_room", raw="394 mm", reading="394", how="typed"),
        Journal(what="answered", by="beekeeper", question="lug_room", before="393", after="394"),
    ]


def test_words_of_a_person_stay_out_of_the_journal(begin: Begin, answer: Given) -> None:
    """And how to reach somebody out of the record of answers as well."""
    turn = begin()
    turn.record(Step.FRAME_NAME, answer("Dadant"), None)
    turn.record(Step.CONTACT, answer("anna@example.org"), None)
    answered = [one for one in turn.effects if isinstance(one, Answered)]
    assert [one.question for one in answered] == ["frame_name"]
    journal = [one for one in turn.effects if isinstance(one, Journal)]
    assert [(one.before, one.after) for one in journal] == [(None, None)] * 2


def test_an_answer_for_an_order_leaves_the_notebook_alone(
    begin: Begin, notebook: Notebook, answer: Given
) -> None:
    """And it ends the question of the desk that asked for it, no other."""
    errands = tuple(Errand(number=NUMBER, step=step) for step in (Step.LUG_ROOM, Step.LEDGE_UP))
    turn = begin(notebook=notebook, stage="question-out", errands=errands)
    turn.record(Step.LUG_ROOM, answer("394"), NUMBER)
    assert turn.session.handed[NUMBER].answers[Step.LUG_ROOM].value == "394"
    assert turn.session.notebook == Notebook()
    assert [errand.step for errand in turn.session.errands] == [Step.LEDGE_UP]


def test_the_first_new_answer_wipes_what_was_thrown_away(begin: Begin, answer: Given) -> None:
    """Before it is written, so that it is not wiped itself."""
    turn = begin(thrown=Notebook(answers={Step.PURPOSE: answer("isolate")}))
    turn.record(Step.PURPOSE, answer("introduce"), None)
    assert turn.effects[0] == Wipe()
    assert turn.session.thrown is None


def test_an_answer_that_does_not_hold_any_more_is_dropped(begin: Begin, answer: Given) -> None:
    """The record says so; dropping what is not there says nothing."""
    turn = begin(notebook=Notebook(answers={Step.BELOW_SPACE: answer("20")}))
    turn.drop(Step.ABOVE_SPACE, None)
    assert turn.effects == []
    turn.drop(Step.BELOW_SPACE, None)
    assert turn.session.notebook.answers == {}
    assert [one.reading for one in turn.effects if isinstance(one, Answered)] == [None]


def test_a_question_is_left_open_once(begin: Begin) -> None:
    """Parking it again does not list it twice."""
    turn = begin()
    turn.park(Step.LUG_ROOM, None)
    turn.park(Step.LUG_ROOM, None)
    assert turn.session.notebook.parked == (Step.LUG_ROOM,)


def test_an_edited_message_answers_what_it_answered_last(begin: Begin) -> None:
    """The entry of the message is replaced, and the ledger keeps only the newest."""
    event = Edit(id="1", person="anna", at=NOW, message=3, text="36x26")
    ledger = tuple(Said(k=k, steps=(Step.LUG_ROOM,)) for k in range(LEDGER))
    turn = begin(event=event, said=ledger)
    turn.remember_said((Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM), None)
    assert len(turn.session.said) == LEDGER
    entries = [entry for entry in turn.session.said if entry.k == 3]
    assert entries == [Said(k=3, steps=(Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM))]


def test_every_message_to_the_person_is_counted_and_remembered(begin: Begin) -> None:
    """With its choices and its question; messages to the desk are not."""
    turn = begin(heard_count=7)
    turn.say(line("help.how"), choices=(button("carry-on"),))
    turn.tell_desk("desk.person_wanted_new")
    assert turn.session.heard_count == 8
    (heard,) = turn.session.heard
    assert (heard.k, heard.step, heard.choices) == (8, Step.SIDE_TO_SIDE, ("carry-on",))


@pytest.mark.parametrize(
    ("asking", "stage", "expected"),
    [
        (Asking(step=Step.LUG_ROOM), None, Stage.NOTEBOOK),
        (Asking(step=Step.READ_BACK), None, Stage.READ_BACK),
        (Asking(step=Step.RESTING), None, Stage.NOTEBOOK),
        (Asking(step=Step.LUG_ROOM, number=NUMBER), "question-out", Stage.QUESTION_OUT),
    ],
)
def test_a_message_says_where_its_order_stands(
    begin: Begin, asking: Asking, stage: str | None, expected: Stage
) -> None:
    """A notebook, a read-back, or the stage the workshop has it in."""
    turn = begin(asking, stage=stage)
    turn.say(line("help.how"))
    assert said(turn)[0].stage == expected


def test_what_this_turn_did_to_an_order_counts_already(begin: Begin) -> None:
    """The message that tells of a move tells the new stage."""
    turn = begin(stage="handed-in")
    turn.do(StageMoved(number=NUMBER, version=1, stage="cleared", by="maria"))
    assert turn.stage(NUMBER) is Stage.CLEARED
    turn.do(
        OrderVersion(
            number=NUMBER, version=2, stage="handed-in", cages=(), by="beekeeper", reason="changed"
        )
    )
    assert turn.stage(NUMBER) is Stage.HANDED_IN
    assert turn.stage(None) is Stage.NOTEBOOK


@pytest.mark.parametrize("step", QUESTIONS)
def test_a_question_has_its_lines_its_picture_and_a_way_on(begin: Begin, step: Step) -> None:
    """Title, from where to where, an example unless it is a choice; a picture for a length."""
    turn = begin()
    turn.put_question(Asking(step=step))
    (message,) = said(turn)
    question = QUESTIONS[step]
    keys = [one.key for one in message.lines]
    example = [] if question.kind is Kind.CHOICE else [f"{step.value}.example"]
    assert keys == ["ask.title", f"{step.value}.from_to", *example]
    assert message.question == step.value
    ids = {choice.id for choice in message.choices}
    assert set(question.choices) <= ids
    assert ("dont-know" in ids) == question.skippable
    assert message.picture is not None or question.kind is not Kind.LENGTH
    assert turn.asking.k == turn.session.heard_count


def test_a_change_shows_the_old_answer_and_a_question_of_the_desk_does_not(
    begin: Begin, notebook: Notebook
) -> None:
    """To change something one has to see it; a second measurement is made blind."""
    for asker, keys, leave in (
        (Asker.CHANGE, ["ask.title", "ask.was"], True),
        (Asker.DESK, ["ask.title", "lug_room.from_to"], False),
        (Asker.SECOND, ["ask.second", "ask.title"], False),
    ):
        turn = begin(notebook=notebook, stage="handed-in")
        turn.put_question(Asking(step=Step.LUG_ROOM, asker=asker, number=NUMBER))
        (message,) = said(turn)
        assert [one.key for one in message.lines][:2] == keys
        assert ("no" in {choice.id for choice in message.choices}) == leave
        assert message.again == (asker is not Asker.CHANGE)


def test_how_to_reach_somebody_is_not_shown_with_its_question(
    begin: Begin, notebook: Notebook
) -> None:
    """Somebody else may hold the phone."""
    turn = begin(notebook=notebook)
    turn.put_question(Asking(step=Step.CONTACT, asker=Asker.CHANGE))
    assert "ask.was" not in {one.key for one in said(turn)[0].lines}


def test_each_language_is_offered_in_its_own_words() -> None:
    """Who can't read the others finds it."""
    labels = {choice.id: choice.label.values["text"] for choice in language_choices()}
    assert tuple(labels) == languages()
    assert labels["pl"] == Free(text="Polski")


def test_a_long_note_of_the_desk_leaves_room_for_the_question() -> None:
    """A short one stays as it is."""
    assert shortened("Outside, please.") == "Outside, please."
    assert len(shortened("long " * 2000)) < 1600
    assert shortened("long " * 2000).endswith("…")


def test_a_length_is_shown_in_the_unit_of_the_person() -> None:
    """And in centimetres beside plain millimetres, so that a slip by ten shows."""
    assert length(Fraction(360), "in") == LengthValue(mm=Fraction(360), also="in")
    for unit in ("mm", "cm", "m", None):
        assert length(Fraction(360), unit) == LengthValue(mm=Fraction(360), also="cm")


def test_an_answer_is_shown_as_what_it_is(answer: Given) -> None:
    """A length, a count, a choice by its words, words as they are, and what is not known."""
    assert shown(Step.LUG_ROOM, answer("393")) == LengthValue(mm=Fraction(393), also="cm")
    assert shown(Step.PIECES, answer("2")) in (Free(text="2"), Count(n=2))
    assert shown(Step.LID, answer("closed")) == TextKey(key="lid.choice.closed")
    assert shown(Step.FRAME_NAME, answer("<b>")) == Free(text="<b>")
    assert shown(Step.LUG_ROOM, answer(None)) == TextKey(key="not-known")
