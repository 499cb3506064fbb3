"""What the desk does with an order, and what the person hears of it."""

from __future__ import annotations

from datetime import timedelta

from conversations.bee_days import bee_days
from conversations.effects import (
    Free,
    Journal,
    Line,
    Noted,
    NumberValue,
    Remind,
    Say,
    StageMoved,
    TextKey,
)  # fmt: skip
from conversations.events import Desk, DeskVerb
from conversations.review import CHANGEABLE, MOVES, Refusal, Stage, refusal
from conversations.script import QUESTIONS, Kind
from conversations.session import Errand
from conversations.steps import Step
from conversations.turns import handing_in, onward
from conversations.turns.turn import Turn, button, line, shortened
from sizing.measures import Purpose

__all__ = ["FIRST_NUDGE", "review"]

FIRST_NUDGE = timedelta(days=3)
"""So long after a question of the desk the person is reminded once."""


def review(turn: Turn, event: Desk) -> None:
    """Do what a staff member asked for, or refuse it and change nothing."""
    order = turn.context.order(event.number)
    if order is None:
        _refuse(turn, event, Refusal.NO_SUCH_ORDER)
        return
    why = refusal(
        event.verb,
        Stage(order.stage),
        newest=order.version,
        looked_at=event.version,
        note=event.note,
        stopped=order.stopped,
    )
    if why is None and event.verb is DeskVerb.ASK and _asked_step(event) is None:
        why = Refusal.NO_SUCH_MEASURE
    if why is not None:
        _refuse(turn, event, why)
        return
    move = MOVES[event.verb]
    turn.do(
        Journal(
            what=event.verb.value, by=event.by, number=order.number, version=order.version,
            question=event.measure, before=order.stage,
            after=move.target.value if move.target else order.stage,
        )
    )  # fmt: skip
    if move.target is not None:
        turn.do(
            StageMoved(
                number=order.number, version=order.version, stage=move.target.value, by=event.by
            )
        )
    words = "\n".join(filter(None, (event.note.strip(), event.would_work.strip())))
    if words:
        turn.do(Noted(number=order.number, by=event.by, what=event.verb.value, text=words))
    _tell_person(turn, event)
    if move.target is not None and move.target not in CHANGEABLE:
        onward.close_questions(turn, order.number)
    done = line(f"desk.done.{event.verb.value}", number=NumberValue(number=order.number))
    turn.do(
        Say(
            to=f"desk:{event.by}",
            lines=(done,),
            number=order.number,
            stage=(move.target or Stage(order.stage)).value,
        )
    )


def _asked_step(event: Desk) -> Step | None:
    if event.measure is None or event.measure not in set(Step):
        return None
    step = Step(event.measure)
    asked = step in QUESTIONS and QUESTIONS[step].kind in (Kind.LENGTH, Kind.COUNT)
    return step if asked else None


def _refuse(turn: Turn, event: Desk, why: Refusal) -> None:
    order = turn.context.order(event.number)
    lines: list[Line] = [line(f"refused.{why.value}", number=NumberValue(number=event.number))]
    if order is not None and why is Refusal.NOT_FROM_THIS_STAGE:
        lines.append(line("refused.stage_is", stage=TextKey(key=f"stage.{order.stage}")))
    turn.do(Say(to=f"desk:{event.by}", lines=tuple(lines), number=event.number, refused=why.value))


def _tell_person(turn: Turn, event: Desk) -> None:
    number = NumberValue(number=event.number)
    if event.verb is DeskVerb.ASK:
        _ask(turn, event)
    elif event.verb is DeskVerb.TURN_DOWN:
        instead = event.would_work.strip()
        turn.say(
            line("turned_down.head", number=number),
            line("turned_down.why", why=Free(text=shortened(event.note.strip()))),
            *([line("turned_down.instead", what=Free(text=shortened(instead)))] if instead else []),
            line("turned_down.next"),
            choices=(button("start-over", "choice.new_order"), button("person")),
            number=event.number,
        )
    elif event.verb is DeskVerb.CLEAR:
        order = turn.context.order(event.number)
        assert order is not None, "only an order that is there is cleared"
        cleared = line("told.clear", number=number)
        handing_in.say_with_copy(turn, event.number, order.version, cleared)
    elif event.verb in (DeskVerb.BENCH, DeskVerb.MADE, DeskVerb.POSTED):
        lines = [line(f"told.{event.verb.value}", number=number)]
        if event.verb is DeskVerb.POSTED:
            lines += _days(turn, event.number)
        turn.say(*lines, number=event.number)


def _days(turn: Turn, number: str) -> tuple[Line, ...]:
    """What the calendar says from the day on which the queen goes in."""
    purpose = turn.notebook(number).answers.get(Step.PURPOSE)
    if purpose is None or purpose.value is None:
        return ()
    return (line("blank"), *bee_days(Purpose(purpose.value), turn.context.now.date()))


def _ask(turn: Turn, event: Desk) -> None:
    step = _asked_step(event)
    assert step is not None
    turn.end_errand(step, event.number)
    errand = Errand(number=event.number, step=step, note=event.note.strip())
    turn.update(errands=(*turn.session.errands, errand))
    turn.do(Remind(what=f"question-{event.number}-1", at=turn.context.now + FIRST_NUDGE))
    asking = turn.asking
    if asking.number is None or (asking.number, asking.step) == (event.number, step):
        onward.run_errand(turn, errand)
