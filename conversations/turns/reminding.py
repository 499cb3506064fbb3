"""What happens when a reminder comes due."""

from __future__ import annotations

from datetime import timedelta

from conversations.effects import Count, Journal, NumberValue, Remind, Wipe
from conversations.review import Stage
from conversations.script import QUESTIONS
from conversations.session import Asking, Notebook
from conversations.steps import Asker, Step
from conversations.turns.turn import Turn, button, line

__all__ = ["come_due"]

_SECOND = timedelta(days=13)
"""After the first day, so that the last reminder comes after 14 days."""
_LAST = timedelta(days=76)
"""After that, so that a forgotten notebook goes after 90 days."""
_NUDGES = ("1", "2")
_SECOND_NUDGE = timedelta(days=4)
"""After the first nudge at 3 days, so that the desk hears after 7."""


def come_due(turn: Turn, what: str) -> None:
    """The moment of the reminder `what` has come."""
    if what.startswith("notebook-"):
        _notebook(turn, what.removeprefix("notebook-"))
    elif what.startswith("question-"):
        number, _, nth = what.removeprefix("question-").partition("-")
        _question(turn, number, nth)


def _notebook(turn: Turn, nth: str) -> None:
    if nth == "end":
        _end(turn)
        return
    if turn.session.resting or not turn.session.notebook.answers or nth not in _NUDGES:
        return
    given = sum(1 for step in turn.session.notebook.answers if step in QUESTIONS)
    turn.say(
        line(f"reminder.notebook_{nth}", given=Count(n=given)),
        choices=(
            button("carry-on"), button("later", "choice.keep"),
            button("start-over", "choice.throw_away"),
        ),
    )  # fmt: skip
    now = turn.context.now
    if nth == "1":
        turn.do(Remind(what="notebook-2", at=now + _SECOND))
    else:
        turn.do(Remind(what="notebook-end", at=now + _LAST))


def _end(turn: Turn) -> None:
    """A notebook nobody came back to goes, and so does one that was thrown away."""
    if not turn.session.notebook.answers and turn.session.thrown is None:
        return
    turn.do(Wipe(), Journal(what="notebook-ended", by="clock"))
    turn.update(notebook=Notebook(), thrown=None, resting=False)
    if turn.asking.number is None:
        turn.update(asking=Asking(step=Step.RESTING))


def _question(turn: Turn, number: str, nth: str) -> None:
    order = turn.context.order(number)
    if order is None or order.stage != Stage.QUESTION_OUT:
        return
    if nth == "1":
        errand = next((one for one in turn.session.errands if one.number == number), None)
        if errand is not None:
            asking = Asking(step=errand.step, asker=Asker.DESK, number=number)
            lead = line("reminder.question", number=NumberValue(number=number))
            turn.put_question(asking, (lead,))
        turn.do(Remind(what=f"question-{number}-2", at=turn.context.now + _SECOND_NUDGE))
        return
    turn.tell_desk("desk.no_answer", number)
