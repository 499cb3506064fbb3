"""From the notebook to an order, and later versions of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from conversations.effects import NoMoreReminders, NumberValue, OrderVersion, Say
from conversations.review import CHANGEABLE, Stage
from conversations.session import Asking, Errand, Heard, Notebook, Said
from conversations.steps import Step
from conversations.summary import request_of
from conversations.turns import handing_in
from conversations.turns.turn import Turn

NUMBER = "48291742"
Begin = Callable[..., Turn]
Without = Callable[[Notebook, Step], Notebook]


def versions(turn: Turn) -> list[OrderVersion]:
    """The versions of orders this turn makes."""
    return [one for one in turn.effects if isinstance(one, OrderVersion)]


def desk(turn: Turn) -> list[str]:
    """What all staff are told."""
    told = (one for one in turn.effects if isinstance(one, Say) and one.to == "desk")
    return [one.lines[0].key for one in told]


def test_handing_in_makes_one_order_of_the_notebook(begin: Begin, notebook: Notebook) -> None:
    """With the next free number; the notebook is empty, its reminders are gone."""
    turn = begin(Asking(step=Step.READ_BACK), notebook)
    assert handing_in.hand_in(turn) is True
    (made,) = versions(turn)
    assert (made.number, made.version, made.stage) == ("48291839", 1, "handed-in")
    (cage,) = made.cages
    assert cage.request == request_of(notebook)
    assert turn.session.notebook == Notebook()
    assert turn.session.handed["48291839"].answers == notebook.answers
    assert turn.asking.step is Step.RESTING
    assert NoMoreReminders(beginning="notebook-") in turn.effects
    assert desk(turn) == ["desk.handed_in"]


@pytest.mark.parametrize(
    "step", [Step.PURPOSE, Step.SIDE_TO_SIDE, Step.TOP_TO_BOTTOM, Step.LUG_TO_LUG, Step.CONTACT]
)
def test_nothing_is_handed_in_without_what_is_needed(
    begin: Begin, notebook: Notebook, without: Without, step: Step
) -> None:
    """Nothing happens at all."""
    turn = begin(Asking(step=Step.READ_BACK), without(notebook, step))
    before = turn.session
    assert handing_in.hand_in(turn) is False
    assert turn.session == before
    assert turn.effects == []


def test_messages_about_the_notebook_are_about_the_order_from_then_on(
    begin: Begin, notebook: Notebook
) -> None:
    """An edit or an old button finds the order; those of an earlier order stay with that."""
    said = (Said(k=1, steps=(Step.LUG_ROOM,), number=NUMBER), Said(k=2, steps=(Step.LUG_ROOM,)))
    heard = (Heard(k=1, step=Step.LUG_ROOM, number=NUMBER), Heard(k=2, step=Step.LUG_ROOM))
    turn = begin(Asking(step=Step.READ_BACK), notebook, said=said, heard=heard)
    handing_in.hand_in(turn)
    assert [entry.number for entry in turn.session.said] == [NUMBER, "48291839"]
    assert [entry.number for entry in turn.session.heard[:2]] == [NUMBER, "48291839"]


@pytest.mark.parametrize("stage", sorted(CHANGEABLE))
def test_a_change_is_the_next_version(begin: Begin, notebook: Notebook, stage: Stage) -> None:
    """The desk hears whether it is an answer to its question or her own change."""
    turn = begin(Asking(step=Step.LID, number=NUMBER), notebook, stage=stage.value)
    handing_in.new_version(turn, NUMBER, ())
    (made,) = versions(turn)
    asked = stage is Stage.QUESTION_OUT
    assert (made.number, made.version, made.stage) == (NUMBER, 2, "handed-in")
    assert made.reason == ("asked-again" if asked else "changed")
    assert desk(turn) == ["desk.answered" if asked else "desk.changed"]
    assert turn.session.handed[NUMBER].version == 2
    assert NoMoreReminders(beginning=f"question-{NUMBER}") in turn.effects


def test_a_question_that_still_waits_keeps_the_order_there(
    begin: Begin, notebook: Notebook
) -> None:
    """The change is a version, but the question is not answered by it, and is still reminded of."""
    errand = Errand(number=NUMBER, step=Step.LUG_ROOM)
    asking = Asking(step=Step.LID, number=NUMBER)
    turn = begin(asking, notebook, stage="question-out", errands=(errand,))
    handing_in.new_version(turn, NUMBER, ())
    (made,) = versions(turn)
    assert (made.version, made.stage, made.reason) == (2, "question-out", "changed")
    assert NoMoreReminders(beginning=f"question-{NUMBER}") not in turn.effects


@pytest.mark.parametrize("stage", sorted(set(Stage) - CHANGEABLE))
def test_past_the_desk_a_change_is_only_a_wish(
    begin: Begin, notebook: Notebook, stage: Stage
) -> None:
    """No version; the desk hears that somebody wants something."""
    turn = begin(Asking(step=Step.LID, number=NUMBER), notebook, stage=stage.value)
    handing_in.new_version(turn, NUMBER, ())
    assert versions(turn) == []
    assert desk(turn) == ["desk.wants_change"]


def test_only_the_newest_orders_are_listed(begin: Begin) -> None:
    """A message has an end: of fifteen orders the ten last ones."""
    turn = begin(stage="cleared")
    (order,) = turn.context.orders
    many = tuple(replace(order, number=str(10_000_000 + n)) for n in range(15))
    turn.context = replace(turn.context, orders=many)
    listed = [one.values["number"] for one in handing_in.order_lines(turn)]
    assert listed == [NumberValue(number=order.number) for order in many[-10:]]
