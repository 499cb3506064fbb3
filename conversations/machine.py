"""The conversation itself: a session and an event in, a session and effects out.

`advance` is the only place where a step changes. It never raises for what a person sent.
It reads no clock and draws no chance: what it may know beside the session and the event is
in the context.
"""

from __future__ import annotations

from conversations import reference
from conversations.answers import Outcome, read
from conversations.answers.text import normalise
from conversations.context import Context
from conversations.effects import Effect, Journal, PhotoKept, TextKey
from conversations.events import Choose, Desk, Due, Edit, Event, Photo, Text, Unusable, Voice
from conversations.locale import catalogue, languages
from conversations.review import CHANGEABLE
from conversations.script import QUESTIONS, Kind
from conversations.session import Asking, Heard, Session
from conversations.steps import Asker, Mode, Step
from conversations.turns import (
    asides,
    choosing,
    handing_in,
    measuring,
    onward,
    reminding,
    reviewing,
    settling,
    wishes,
)
from conversations.turns.handing_in import order_line
from conversations.turns.turn import Turn, button, line, shown, title

__all__ = ["advance"]

_OF_LUGS = (Step.LUG_TO_LUG, Step.LUG_THICKNESS)


def advance(session: Session, event: Event, context: Context) -> tuple[Session, tuple[Effect, ...]]:
    """One turn: what `event` makes of `session`, and what is to be done."""
    turn = Turn(session, event, context)
    if isinstance(event, Desk):
        reviewing.review(turn, event)
    elif isinstance(event, Due):
        reminding.come_due(turn, event.what)
    else:
        _person(turn, event)
    return turn.session, tuple(turn.effects)


def _person(turn: Turn, event: Text | Choose | Photo | Voice | Unusable | Edit) -> None:
    if isinstance(event, Text | Photo | Voice | Unusable):
        turn.update(said_count=turn.session.said_count + 1)
    if not turn.session.greeted:
        hint = (event.language_hint or "").split("-")[0]
        if hint in languages():
            turn.update(language=hint)
        choosing.greet(turn)
    elif isinstance(event, Choose):
        _chosen(turn, event)
    elif isinstance(event, Edit):
        _edited(turn, event)
    elif isinstance(event, Photo):
        _photo(turn, event)
    elif isinstance(event, Voice):
        onward.ask_again(turn, (line("voice.cannot"),))
    elif isinstance(event, Unusable):
        onward.ask_again(turn, (line(f"unusable.{event.what}"),))
    else:
        _said(turn, event.text, event.reply_to)


# --- words ----------------------------------------------------------------------------


def _said(turn: Turn, text: str, reply_to: int | None) -> None:
    name = wishes.named(text)
    if name is not None:
        wishes.grant(turn, name)
        return
    if (number := _order_number(turn, text)) is not None:
        order = turn.context.order(number)
        assert order is not None
        turn.say(order_line(order), choices=(button("carry-on"), button("person")), number=number)
        return
    if text.strip().startswith("/"):
        turn.say(line("not_understood.command"), line("help.words"), choices=onward.way_back(turn))
        return
    if turn.session.passing and not _is_number(turn, text):
        asides.pass_on(turn, text)
        return
    if not _bound(turn, reply_to):
        return
    if reply_to is None:
        text = _named(turn, text)
    turn.remember_said((turn.asking.step,), turn.asking.number)
    _answer(turn, text)


def _is_number(turn: Turn, text: str) -> bool:
    """Whether these words answer the measure that is asked, and need nobody to read them."""
    measure = turn.asking.step.measure
    if measure is None:
        return False
    return read(text, measure, language=turn.session.language).outcome is Outcome.TAKE


def _named(turn: Turn, text: str) -> str:
    """ "Side to side is 365": where an answered measure is named first, it is what is asked now;
    the words after the name."""
    said = normalise(text)
    order = turn.context.orders[-1].number if turn.context.orders else None
    number = None if turn.session.notebook.answers else order
    if number is not None and not _changeable(turn, number):
        return text
    texts = catalogue(turn.session.language)
    for step in turn.notebook(number).answers:
        name = normalise(texts.text(f"{step.value}.title")) if step in QUESTIONS else ""
        after = said.removeprefix(name).lstrip(" :=,")
        named = name and said.startswith(name) and step.measure is not None
        if named and step is not turn.asking.step and any(sign.isdigit() for sign in after):
            turn.update(asking=Asking(step=step, asker=Asker.CHANGE, number=number))
            return after
    return text


def _order_number(turn: Turn, text: str) -> str | None:
    if not reference.is_valid(text):
        return None
    number = reference.compact(text)
    return number if turn.context.order(number) else None


def _bound(turn: Turn, reply_to: int | None) -> bool:
    """A reply to an older question makes it what is asked now; False where it is too late."""
    heard = None if reply_to is None else _heard(turn, reply_to)
    asking = turn.asking
    if heard is None or heard.step not in QUESTIONS:
        return True
    if (heard.step, heard.number) == (asking.step, asking.number):
        return True
    if heard.number is not None and not _changeable(turn, heard.number):
        turn.say(line("changed.too_late_ask"), choices=(button("person"),), number=heard.number)
        return False
    turn.update(asking=Asking(step=heard.step, asker=Asker.CHANGE, number=heard.number))
    return True


def _changeable(turn: Turn, number: str) -> bool:
    order = turn.context.order(number)
    return order is not None and order.stage in CHANGEABLE


def _answer(turn: Turn, text: str, *, how: str = "typed") -> None:
    """The text answers what is asked now."""
    asking = turn.asking
    for heard in _offers(turn):
        if (choice := choosing.find_label(turn, text, heard)) is not None:
            _tapped(turn, choice, heard)
            return
    if asking.step is Step.READ_BACK:
        onward.ask_again(turn, (line("not_understood.tap"),))
        return
    if asking.step is Step.RESTING:
        asides.offer(turn, text) if turn.context.orders else onward.ask_again(turn)
        return
    question = QUESTIONS[asking.step]
    if asking.separate is not None:
        settling.read_instead(turn, text)
    elif question.kind in (Kind.LENGTH, Kind.COUNT):
        if asking.step in _OF_LUGS and wishes.says_no_lugs(text):
            choosing.no_lugs(turn, "no-lugs", TextKey(key="frame_name.this"))
            return
        measuring.answer(turn, text, asking, how=how)
    elif asking.step is Step.FRAME_NAME and wishes.says_no_lugs(text):
        choosing.no_lugs(turn, "no-lugs", TextKey(key="frame_name.this"))
    elif question.kind is Kind.WORDS:
        choosing.words(turn, text, asking)
    elif asking.step is Step.LANGUAGE:
        choosing.greet(turn)
    else:
        choosing.not_a_choice(turn)


def _offers(turn: Turn) -> tuple[Heard, ...]:
    """The messages whose choices may be typed out: the newest, and the question itself. After
    an edit or a reply only the question's own choices."""
    asking = turn.asking
    if not asking.k:
        own = QUESTIONS[asking.step].choices if asking.step in QUESTIONS else ()
        return (Heard(k=0, step=asking.step, choices=own, number=asking.number),)
    question = _heard(turn, asking.k)
    return (*turn.session.heard[-1:], *((question,) if question else ()))


# --- taps -----------------------------------------------------------------------------


def _heard(turn: Turn, k: int | None) -> Heard | None:
    return next((heard for heard in turn.session.heard if heard.k == k), None)


def _chosen(turn: Turn, event: Choose) -> None:
    if turn.session.passing:
        turn.update(passing=False)
    if event.of is not None:
        heard = _heard(turn, event.of)
    else:
        offering = (h for h in reversed(turn.session.heard) if event.choice in h.choices)
        heard = next(offering, None)
    if heard is None or event.choice not in heard.choices:
        if event.choice in wishes.WISHES:
            wishes.grant(turn, event.choice)
            return
        onward.ask_again(turn, (line("not_understood.choice"),))
        return
    _tapped(turn, event.choice, heard)


def _tapped(turn: Turn, choice: str, heard: Heard) -> None:
    asking = turn.asking
    here = (heard.step, heard.number) == (asking.step, asking.number)
    if heard.step is Step.LANGUAGE and choice in languages():
        choosing.choose_language(turn, choice)
    elif choice in wishes.WISHES:
        wishes.grant(turn, choice)
    elif choice == "withdraw-it":
        asides.withdraw(turn, heard.number)
    elif choice == "hand-in":
        _hand_in(turn, heard)
    elif (
        choice in QUESTIONS
        and choice not in QUESTIONS.get(heard.step, QUESTIONS[Step.CONTACT]).choices
    ):
        _change_one(turn, Step(choice), heard)
    elif choice == "other-value" and heard.echo:
        _not_right(turn, heard)
    elif choice == "no" and heard.k != asking.k:
        onward.ask_again(turn)
    elif not here or heard.step not in QUESTIONS:
        _stale(turn, heard)
    else:
        _answered_by_tap(turn, choice, heard)


def _answered_by_tap(turn: Turn, choice: str, heard: Heard) -> None:
    asking = turn.asking
    newest = heard.k == asking.k
    question = QUESTIONS[asking.step]
    if asking.separate is not None and newest and choice != "other-value":
        settling.choose(turn, choice)
    elif choice in question.choices:
        choosing.choose_value(turn, choice, asking)
    elif choice == "dont-know":
        _dont_know(turn)
    elif choice == "show-me":
        onward.ask_again(turn)
    elif choice in ("yes", "no") and asking.mode is Mode.PROPOSE and newest:
        measuring.confirm(turn, agreed=choice == "yes")
    elif choice == "no" and asking.asker is Asker.CHANGE:
        onward.leave(turn, (line("kept.old", title=title(asking.step)),))
    elif choice == "exactly" and asking.mode is Mode.PRECISION and newest:
        measuring.precise(turn)
    elif choice == "insist" and newest:
        _insist(turn)
    elif choice.startswith("option-") and asking.mode is Mode.OPTIONS and newest:
        measuring.pick(turn, int(choice.removeprefix("option-")) - 1)
    elif choice == "other-value" and newest:
        onward.ask_again(turn)
    else:
        _stale(turn, heard)


def _dont_know(turn: Turn) -> None:
    if turn.asking.step is Step.FRAME_NAME:
        choosing.no_name(turn)
    else:
        measuring.dont_know(turn, turn.asking)


def _insist(turn: Turn) -> None:
    if turn.asking.values:
        measuring.insist(turn)
        return
    turn.do(Journal(what="has-lugs", by="beekeeper", number=turn.asking.number))
    _dont_know(turn) if turn.asking.step is Step.FRAME_NAME else onward.ask_again(turn)


def _hand_in(turn: Turn, heard: Heard) -> None:
    if turn.asking.step is Step.READ_BACK:
        if heard.k != turn.asking.k:
            onward.show_read_back(turn, (line("stale.earlier"),))
        elif handing_in.hand_in(turn):
            onward.resume(turn)
        return
    if turn.context.orders and not turn.session.notebook.answers:
        order = turn.context.orders[-1]
        turn.say(line("handed_in.already"), order_line(order), number=order.number)
        return
    onward.ask_again(turn, (line("stale.earlier"),))


def _change_one(turn: Turn, step: Step, heard: Heard) -> None:
    if heard.number is not None and not _changeable(turn, heard.number):
        turn.say(line("changed.too_late_ask"), choices=(button("person"),), number=heard.number)
        return
    turn.put_question(Asking(step=step, asker=Asker.CHANGE, number=heard.number))


def _not_right(turn: Turn, heard: Heard) -> None:
    if len(heard.echo) == 1:
        _change_one(turn, heard.echo[0], heard)
    else:
        choosing.list_changes(turn, heard.number)


def _stale(turn: Turn, heard: Heard) -> None:
    """A button of an older message: say what was answered, offer to change it or leave it."""
    answer = (
        turn.notebook(heard.number).answers.get(heard.step) if heard.step in QUESTIONS else None
    )
    if answer is None or heard.step is Step.CONTACT:
        onward.ask_again(turn, (line("stale.earlier"),))
        return
    turn.say(
        line("stale.answered", title=title(heard.step), value=shown(heard.step, answer)),
        choices=(button(heard.step.value, "choice.change_it"), button("no", "choice.leave_it")),
        number=heard.number,
    )


# --- edits and photos -----------------------------------------------------------------


def _edited(turn: Turn, event: Edit) -> None:
    said = next((said for said in turn.session.said if said.k == event.message), None)
    if said is None or not said.steps or said.steps[0] not in QUESTIONS:
        onward.ask_again(turn, (line("edit.cannot"),))
        return
    if said.number is not None and not _changeable(turn, said.number):
        turn.say(line("changed.too_late_ask"), choices=(button("person"),), number=said.number)
        return
    step = said.steps[0]
    turn.update(asking=Asking(step=step, steps=said.steps[1:], number=said.number))
    _answer(turn, event.text, how="edited")


def _photo(turn: Turn, event: Photo) -> None:
    if event.album is not None and event.album == turn.session.album and turn.session.said:
        first = turn.session.said[-1]
        turn.do(PhotoKept(photo=event.photo, question=first.steps[0].value, number=first.number))
        turn.remember_said(first.steps, first.number)
        return
    turn.update(album=event.album)
    if not _bound(turn, event.reply_to):
        return
    asking = turn.asking
    number = asking.number
    if asking.step is Step.RESTING and number is None and turn.context.orders:
        number = turn.context.orders[-1].number
    turn.do(PhotoKept(photo=event.photo, question=asking.step.value, number=number))
    turn.remember_said((asking.step,), asking.number)
    if _may_answer(turn, event.caption):
        _answer(turn, event.caption, how="caption")
        return
    onward.ask_again(turn, (line("photo.kept" if _asks_number(turn) else "photo.kept.order"),))


def _may_answer(turn: Turn, caption: str) -> bool:
    """Whether the words under a photo are an answer: a choice, or something with digits where
    a number is asked. A name, or how to reach somebody, is never taken from there."""
    if any(choosing.find_label(turn, caption, heard) for heard in _offers(turn)):
        return True
    return _asks_number(turn) and any(sign.isnumeric() for sign in caption)


def _asks_number(turn: Turn) -> bool:
    question = QUESTIONS.get(turn.asking.step)
    return question is not None and question.kind in (Kind.LENGTH, Kind.COUNT)
