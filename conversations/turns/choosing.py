"""Answers that are a choice or words: language, purpose, names, contact, and taps."""

from __future__ import annotations

from functools import cache

from conversations.answers import Reason, read
from conversations.answers.text import normalise
from conversations.effects import Contact, Free, TextKey
from conversations.locale import catalogue, languages
from conversations.script import DEFAULTS, QUESTIONS, Kind
from conversations.session import Answer, Asking, Heard
from conversations.steps import Asker, Mode, Step
from conversations.turns import onward
from conversations.turns.turn import Turn, button, language_choices, line, shown, title
from sizing.measures import Measure
from sizing.standards import by_name

__all__ = [
    "choose_language",
    "choose_value",
    "find_label",
    "greet",
    "list_changes",
    "no_lugs",
    "no_name",
    "not_a_choice",
    "words",
]

_MEASURED_TO = {Step.BELOW: Step.BELOW_SPACE, Step.ABOVE: Step.ABOVE_SPACE}
"""A distance to something is no longer true where that something is another."""
_OTHER_LABELS = {
    "no": ("choice.leave_it", "choice.leave_all", "choice.keep_it"),
    "insist": ("choice.has_lugs",),
    "start-over": ("choice.new_order",),
    "other-value": ("choice.measure_again",),
}
"""What else can stand on a button with this id."""
_DIGITS = 6
"""The shortest telephone numbers have so many digits."""
_LONGEST = 200
"""Words beyond this are cut; nobody has so long a name."""


def greet(turn: Turn) -> None:
    """The first words: in which language shall we talk?"""
    turn.update(asking=Asking(step=Step.LANGUAGE, k=turn.session.heard_count + 1), greeted=True)
    turn.say(
        line("language.from_to"),
        choices=language_choices(),
        question=Step.LANGUAGE.value,
    )


def choose_language(turn: Turn, code: str) -> None:
    """From now on every message is in this language."""
    first = not turn.session.language_chosen
    turn.update(language=code, language_chosen=True)
    if turn.asking.step is not Step.LANGUAGE:
        onward.ask_again(turn, (line("language.changed"),))
        return
    turn.update(asking=Asking(step=Step.RESTING))
    if first and not turn.session.notebook.answers:
        onward.go_on(turn, (line("welcome.what"), line("welcome.how"), line("welcome.kept")))
    else:
        onward.go_on(turn, (line("language.changed"),))


def choose_value(turn: Turn, choice: str, asking: Asking) -> None:
    """One of the values of the choice question `asking`."""
    how = "changed" if asking.asker is Asker.CHANGE else "chosen"
    taken = Answer(value=choice, raw=choice, how=how, at=turn.context.now)
    before = turn.notebook(asking.number).answers.get(asking.step)
    if before is not None and before.value != choice and asking.step in _MEASURED_TO:
        turn.drop(_MEASURED_TO[asking.step], asking.number)
    turn.record(asking.step, taken, asking.number)
    turn.update(asking=Asking(step=asking.step, number=asking.number))
    echo = line("echo.chosen", title=title(asking.step), value=shown(asking.step, taken))
    onward.go_on(turn, (echo,))


def words(turn: Turn, text: str, asking: Asking) -> None:
    """The answer to a question that is answered in words."""
    said = " ".join(text.split())[:_LONGEST]
    if not said:
        turn.put_question(asking)
        return
    if asking.step is Step.CONTACT:
        _contact(turn, said, asking)
        return
    kinds = by_name(said)
    if not kinds and _says_dont_know(turn, said):
        no_name(turn)
        return
    obstacles = [kind.cannot for kind in kinds]
    if obstacles and obstacles[0] is not None and all(obstacles):
        no_lugs(turn, obstacles[0].value, Free(text=said))
        return
    turn.record(asking.step, Answer(value=said, raw=said, at=turn.context.now), asking.number)
    turn.update(asking=Asking(step=asking.step, number=asking.number))
    onward.go_on(turn, (line("echo.named", name=Free(text=said)),))


def _says_dont_know(turn: Turn, said: str) -> bool:
    reading = read(said, Measure.SIDE_TO_SIDE, language=turn.session.language)
    return reading.reason is Reason.DONT_KNOW


def no_name(turn: Turn) -> None:
    """The frame goes without a name: the tape tells all."""
    turn.park(Step.FRAME_NAME, turn.asking.number)
    onward.leave(turn, (line("frame_name.parked"),))


def no_lugs(turn: Turn, reason: str, name: Free | TextKey) -> None:
    """Such a frame cannot hang in a cage of ours; say why, and leave the door open."""
    asking = turn.asking
    turn.update(
        asking=asking.plain().model_copy(
            update={"mode": Mode.OPTIONS, "k": turn.session.heard_count + 1}
        )
    )
    turn.say(
        line(f"cannot.{reason}", name=name),
        line("cannot.person"),
        choices=(button("insist", "choice.has_lugs"), button("person"), button("start-over")),
        question=asking.step.value,
    )


@cache
def _labels(language: str, step: Step, identity: str) -> frozenset[str]:
    """All that may stand on a button with this id, or be said for it, in one language."""
    texts = catalogue(language)
    keys = (
        f"{step.value}.choice.{identity}", f"doubt.way.{identity}", f"choice.{identity}",
        f"{identity}.title",
        *_OTHER_LABELS.get(identity, ()),
    )  # fmt: skip
    labels = [texts.text(key) for key in keys if texts.has(key)]
    if texts.has(words := f"choice.{identity}.words"):
        labels += texts.text(words).split("|")
    if identity in languages() and step is Step.LANGUAGE:
        labels.append(catalogue(identity).text("language.self"))
    return frozenset(normalise(label) for label in labels)


def _contact(turn: Turn, said: str, asking: Asking) -> None:
    if not _reaches(said) and asking.raw != said:
        asked_again = asking.plain().model_copy(update={"raw": said})
        turn.put_question(asked_again, (line("contact.short"),))
        return
    turn.do(Contact(text=said))
    turn.update(contact_known=True)
    turn.record(Step.CONTACT, Answer(value=said, at=turn.context.now), asking.number)
    turn.update(asking=Asking(step=asking.step, number=asking.number))
    onward.go_on(turn, (line("echo.contact"),))


def _reaches(said: str) -> bool:
    """Whether these words hold a telephone number or an address on the net. It is doubted once:
    who sends the same again means it."""
    return "@" in said or sum(sign.isdigit() for sign in said) >= _DIGITS


def list_changes(turn: Turn, number: str | None) -> None:
    """All answers given so far, each to be tapped and changed."""
    notebook = turn.notebook(number)
    given = [step for step in QUESTIONS if step in notebook.answers]
    if not given:
        onward.ask_again(turn, (line("change.nothing"),))
        return
    choices = []
    for step in given:
        if step is Step.CONTACT:
            choices.append(button(step.value, f"{step.value}.title"))
            continue
        value = shown(step, notebook.answers[step])
        choices.append(button(step.value, "choice.given", title=title(step), value=value))
    left = [step for step in notebook.parked if step not in notebook.answers]
    choices += [button(step.value, "choice.left_open", title=title(step)) for step in left]
    usual = () if number is None else (*DEFAULTS, Step.FRAMES_OUT)
    choices += [
        button(step.value, "choice.change_one", title=title(step))
        for step in usual
        if step not in notebook.answers
    ]
    if turn.session.contact_known and Step.CONTACT not in given:
        choices.append(button(Step.CONTACT.value, f"{Step.CONTACT.value}.title"))
    turn.say(
        line("change.which"), choices=(*choices, button("no", "choice.leave_all")), number=number
    )


def not_a_choice(turn: Turn) -> None:
    """Words that are none of the answers: said otherwise each time, at last with a person."""
    tries = turn.asking.tries + 1
    turn.update(asking=turn.asking.model_copy(update={"tries": tries}))
    leads = ("not_understood.choice", "not_understood.place", "not_understood.person")
    last = tries >= len(leads)
    lead = line(leads[min(tries, len(leads)) - 1])
    asking = turn.asking.plain()
    turn.put_question(asking, (lead,), extra=(button("person"),) if last else ())


def find_label(turn: Turn, text: str, heard: Heard) -> str | None:
    """The id of the choice the person typed out instead of tapping it, or its place in the list.

    The place counts only for the question that is asked: elsewhere a number is an answer.
    """
    said = normalise(text).rstrip(".!")
    if not said:
        return None
    step = heard.step
    pure = step in QUESTIONS and QUESTIONS[step].kind is Kind.CHOICE and heard.k == turn.asking.k
    place = text.strip().rstrip(".!")
    if pure and place.isascii() and place.isdigit() and 1 <= int(place) <= len(heard.choices):
        return heard.choices[int(place) - 1]
    for identity in heard.choices:
        if said == identity or said in _labels(turn.session.language, step, identity):
            return identity
    return None
