"""What happens when something comes due."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest

from conversations.effects import Count, Remind, Say, Wipe
from conversations.session import Asking, Errand, Notebook
from conversations.steps import Step
from conversations.turns import reminding
from conversations.turns.turn import Turn

NUMBER = "48291742"
Begin = Callable[..., Turn]
ERRAND = Errand(number=NUMBER, step=Step.LUG_ROOM)


def said(turn: Turn, to: str = "person") -> list[str]:
    """The texts of all messages to somebody."""
    says = (one for one in turn.effects if isinstance(one, Say) and one.to == to)
    return [line.key for one in says for line in one.lines]


def planned(turn: Turn) -> dict[str, timedelta]:
    """What comes due how long from now."""
    reminders = (one for one in turn.effects if isinstance(one, Remind))
    return {one.what: one.at - turn.context.now for one in reminders}


def test_a_notebook_is_reminded_of_twice_and_ends_after_ninety_days(
    begin: Begin, notebook: Notebook
) -> None:
    """After one day, after fourteen, after ninety."""
    first, second = begin(notebook=notebook), begin(notebook=notebook)
    reminding.come_due(first, "notebook-1")
    assert planned(first) == {"notebook-2": timedelta(days=13)}
    reminding.come_due(second, "notebook-2")
    assert planned(second) == {"notebook-end": timedelta(days=76)}
    assert said(first) == ["reminder.notebook_1"]
    assert said(second) == ["reminder.notebook_2"]
    assert timedelta(days=1) + timedelta(days=13) + timedelta(days=76) == timedelta(days=90)


def test_a_reminder_says_how_much_is_there(begin: Begin, notebook: Notebook) -> None:
    """And offers to go on, to keep it quietly, or to throw it away."""
    turn = begin(notebook=notebook)
    reminding.come_due(turn, "notebook-1")
    (message,) = (one for one in turn.effects if isinstance(one, Say))
    assert message.lines[0].values["given"] == Count(n=len(notebook.answers))
    assert [choice.id for choice in message.choices] == ["carry-on", "later", "start-over"]


def test_who_said_later_or_has_nothing_is_left_in_peace(begin: Begin, notebook: Notebook) -> None:
    """Also when the reminder was planned before."""
    for turn in (begin(notebook=notebook, resting=True), begin()):
        reminding.come_due(turn, "notebook-1")
        assert turn.effects == []


def test_an_old_notebook_goes_with_its_photos(begin: Begin, notebook: Notebook) -> None:
    """Nothing is asked any more; an order that was handed in stays."""
    turn = begin(notebook=notebook, handed={NUMBER: notebook})
    reminding.come_due(turn, "notebook-end")
    assert Wipe() in turn.effects
    assert turn.session.notebook == Notebook()
    assert turn.asking.step is Step.RESTING
    assert turn.session.handed == {NUMBER: notebook}
    assert said(turn) == []


def test_what_was_thrown_away_goes_too(begin: Begin, notebook: Notebook) -> None:
    """It could be brought back for ninety days, not for ever."""
    turn = begin(thrown=notebook)
    reminding.come_due(turn, "notebook-end")
    assert Wipe() in turn.effects
    assert turn.session.thrown is None


def test_the_end_of_a_notebook_leaves_a_question_of_the_desk_standing(
    begin: Begin, notebook: Notebook
) -> None:
    """It is about an order, not about the notebook."""
    asking = Asking(step=Step.LUG_ROOM, number=NUMBER)
    turn = begin(asking, notebook=notebook, errands=(ERRAND,))
    reminding.come_due(turn, "notebook-end")
    assert turn.asking == asking
    assert turn.session.errands == (ERRAND,)


def test_a_question_of_the_desk_is_asked_once_more(begin: Begin, notebook: Notebook) -> None:
    """After three days; the old value is not shown; after four more the desk hears."""
    turn = begin(Asking(step=Step.PURPOSE), notebook, stage="question-out", errands=(ERRAND,))
    reminding.come_due(turn, f"question-{NUMBER}-1")
    assert said(turn)[0] == "reminder.question"
    assert "ask.was" not in said(turn)
    assert (turn.asking.step, turn.asking.number) == (Step.LUG_ROOM, NUMBER)
    assert planned(turn) == {f"question-{NUMBER}-2": timedelta(days=4)}
    reminding.come_due(turn, f"question-{NUMBER}-2")
    assert said(turn, "desk") == ["desk.no_answer"]


@pytest.mark.parametrize("stage", ["handed-in", "cleared", "turned-down"])
def test_a_question_that_was_settled_meanwhile_is_not_asked(begin: Begin, stage: str) -> None:
    """Neither the person nor the desk hears of it."""
    turn = begin(stage=stage)
    for nth in (1, 2):
        reminding.come_due(turn, f"question-{NUMBER}-{nth}")
    assert turn.effects == []


@pytest.mark.parametrize(
    "what", ["", "notebook-", "notebook-3", "question-", "question-1-1", "nothing-of-ours"]
)
def test_what_nobody_planned_does_nothing(begin: Begin, notebook: Notebook, what: str) -> None:
    """A row that was left behind by another version of the program is harmless."""
    turn = begin(notebook=notebook)
    before = turn.session
    reminding.come_due(turn, what)
    assert turn.effects == []
    assert turn.session == before
