"""From the notebook to an order: handing in, and later versions of it."""

from __future__ import annotations

from typing import TypeVar

from conversations.context import OrderView
from conversations.effects import (
    Cage,
    Choice,
    DateValue,
    Document,
    Line,
    NoMoreReminders,
    NumberValue,
    OrderCopy,
    OrderVersion,
    Picture,
)  # fmt: skip
from conversations.review import CHANGEABLE, Stage
from conversations.script import missing
from conversations.session import Asking, Heard, Notebook, Said
from conversations.steps import Step
from conversations.summary import request_of
from conversations.turns.turn import Turn, button, line

__all__ = ["CHANGEABLE", "hand_in", "new_version", "order_line", "order_lines", "say_with_copy"]

_NEWEST = 10
"""So many orders are listed in one message."""

_Entry = TypeVar("_Entry", Said, Heard)


def order_line(order: OrderView) -> Line:
    """Where an order stands, since when, and who has the ball."""
    return line(
        f"status.{order.stage}",
        number=NumberValue(number=order.number),
        since=DateValue(day=order.since.date()),
    )


def order_lines(turn: Turn) -> tuple[Line, ...]:
    """Where this person's newest orders stand."""
    return tuple(order_line(order) for order in turn.context.orders[-_NEWEST:])


def hand_in(turn: Turn) -> bool:
    """Make the notebook an order with a number. False while something needed is missing."""
    notebook = turn.session.notebook
    if missing(notebook, contact_known=turn.session.contact_known):
        return False
    number = turn.context.next_number
    turn.do(_version(notebook, number, 1, reason="handed-in"))
    turn.update(
        notebook=Notebook(),
        handed={
            **turn.session.handed,
            number: notebook.model_copy(update={"number": number, "version": 1}),
        },
        asking=Asking(step=Step.RESTING),
        resting=False,
        said=tuple(_of_order(entry, number) for entry in turn.session.said),
        heard=tuple(_of_order(entry, number) for entry in turn.session.heard),
    )
    turn.do(NoMoreReminders(beginning="notebook-"))
    say_with_copy(
        turn,
        number,
        1,
        line("handed_in.number", number=NumberValue(number=number)),
        line("blank"),
        line("handed_in.next"),
        line("handed_in.change"),
        line("handed_in.keep"),
        choices=(button("change"), button("start-over", "choice.new_order"), button("person")),
    )
    turn.tell_desk("desk.handed_in", number)
    return True


def say_with_copy(
    turn: Turn, number: str, version: int, *lines: Line, choices: tuple[Choice, ...] = ()
) -> None:
    """Send the person one message about an order, with what they keep of it as it is now."""
    request = request_of(turn.notebook(number))
    if request is None:
        turn.say(*lines, choices=choices, number=number)
        return
    copy = OrderCopy(
        number=number,
        version=version,
        stage=turn.stage(number).value,
        day=turn.context.now.date(),
        cages=(Cage(pieces=request.pieces, request=request),),
    )
    turn.say(
        *lines,
        choices=choices,
        picture=Picture(name="copy", order=copy),
        document=Document(name="copy", order=copy),
        number=number,
    )


def new_version(turn: Turn, number: str, lead: tuple[Line, ...]) -> None:
    """An answer of an order with the workshop changed: the next version, and all are told."""
    order = turn.context.order(number)
    assert order is not None, "an errand is only ever for an order of this person"
    if order.stage not in CHANGEABLE:
        turn.update(asking=Asking(step=Step.RESTING))
        turn.say(line("changed.too_late", number=NumberValue(number=number)), number=number)
        turn.tell_desk("desk.wants_change", number)
        return
    version = order.version + 1
    notebook = turn.notebook(number).model_copy(update={"version": version})
    turn.update(handed={**turn.session.handed, number: notebook})
    waiting = any(errand.number == number for errand in turn.session.errands)
    back = order.stage == Stage.QUESTION_OUT and not waiting
    stage = Stage.QUESTION_OUT if waiting else Stage.HANDED_IN
    reason = "asked-again" if back else "changed"
    turn.do(_version(notebook, number, version, reason=reason, stage=stage))
    if not waiting:
        turn.do(NoMoreReminders(beginning=f"question-{number}"))
    turn.update(asking=Asking(step=Step.RESTING))
    say_with_copy(
        turn,
        number,
        version,
        *lead,
        *((line("blank"),) if lead else ()),
        line("changed.thanks", number=NumberValue(number=number)),
    )
    turn.tell_desk("desk.answered" if back else "desk.changed", number)


def _of_order(entry: _Entry, number: str) -> _Entry:
    """A message about the notebook now is about the order it became."""
    return entry if entry.number else entry.model_copy(update={"number": number})


def _version(
    notebook: Notebook,
    number: str,
    version: int,
    *,
    reason: str,
    stage: Stage = Stage.HANDED_IN,
) -> OrderVersion:
    request = request_of(notebook)
    assert request is not None, "nothing is handed in without the lengths a cage needs"
    cage = Cage(pieces=request.pieces, request=request)
    return OrderVersion(
        number=number,
        version=version,
        stage=stage.value,
        cages=(cage,),
        by="beekeeper",
        reason=reason,
    )
