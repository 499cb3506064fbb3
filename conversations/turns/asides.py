"""What is not an answer: words for the workshop, and taking an order back."""

from __future__ import annotations

from conversations.effects import Free, Journal, NumberValue, StageMoved, TextKey, Value
from conversations.review import WITHDRAWABLE, Stage
from conversations.turns import onward
from conversations.turns.turn import Turn, button, line

__all__ = ["LONGEST", "ask_person", "ask_withdraw", "offer", "pass_on", "withdraw"]

LONGEST = 600
"""Of words that are passed on, so many signs are kept."""


def ask_person(turn: Turn) -> None:
    """Somebody at the workshop is wanted: tell all staff, and take the next words to them."""
    newest = _newest(turn)
    turn.do(Journal(what="wants-a-person", by="beekeeper", number=newest))
    turn.tell_desk("desk.person_wanted" if newest else "desk.person_wanted_new", newest)
    _listen(turn)


def _listen(turn: Turn) -> None:
    turn.update(passing=True)
    lines = [line("person.noted")]
    if not turn.session.contact_known:
        lines.append(line("person.where"))
    turn.say(*lines, choices=onward.way_back(turn))


def pass_on(turn: Turn, text: str) -> None:
    """These words go to all staff, with the order or how to reach the person."""
    words, number = text.strip()[:LONGEST], _newest(turn)
    turn.update(passing=False, unheard="")
    if not words:
        _listen(turn)
        return
    said: dict[str, Value] = {"text": Free(text=words)}
    if number is None:
        known = turn.context.contact
        said["contact"] = Free(text=known) if known else TextKey(key="not-known")
    turn.do(Journal(what="wrote-to-the-workshop", by="beekeeper", number=number))
    turn.tell_desk("desk.person_says" if number else "desk.person_says_new", number, **said)
    onward.ask_again(turn, (line("person.passed"),))


def offer(turn: Turn, text: str) -> None:
    """Nothing is asked and these words are no wish: shall the workshop read them?"""
    turn.update(unheard=text.strip()[:LONGEST])
    turn.say(
        line("not_understood.pass_on"),
        choices=(button("pass-on"), *onward.resting_choices(turn)),
    )


def ask_withdraw(turn: Turn) -> None:
    """The newest order that can still be taken back: shall it be? One more tap does it."""
    for order in reversed(turn.context.orders):
        if order.stage in WITHDRAWABLE:
            number = order.number
            turn.say(
                line("withdraw.ask", number=NumberValue(number=number)),
                choices=(button("withdraw-it"), button("no", "choice.keep_it")),
                number=number,
            )
            return
    if turn.session.notebook.answers:
        turn.say(line("withdraw.notebook"), choices=(button("start-over"), button("carry-on")))
    elif turn.context.orders:
        turn.say(line("changed.too_late_ask"), choices=(button("person"),))
    else:
        onward.ask_again(turn, (line("change.nothing"),))


def withdraw(turn: Turn, number: str | None) -> None:
    """The order is taken back: nothing is made, nothing is asked, and the workshop hears it."""
    order = None if number is None else turn.context.order(number)
    if order is None or order.stage not in WITHDRAWABLE:
        turn.say(line("changed.too_late_ask"), choices=(button("person"),), number=number)
        return
    turn.do(
        Journal(
            what="withdrawn", by="beekeeper", number=order.number, version=order.version,
            before=order.stage, after=Stage.WITHDRAWN.value,
        ),
        StageMoved(
            number=order.number, version=order.version, stage=Stage.WITHDRAWN.value,
            by="beekeeper",
        ),
    )  # fmt: skip
    turn.say(
        line("withdraw.done", number=NumberValue(number=order.number)),
        choices=(button("start-over", "choice.new_order"), button("person")),
        number=order.number,
    )
    turn.tell_desk("desk.withdrawn", order.number)
    onward.close_questions(turn, order.number)


def _newest(turn: Turn) -> str | None:
    return turn.context.orders[-1].number if turn.context.orders else None
